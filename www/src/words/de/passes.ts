import type { UnfiredAdvice, Zone } from '../../engine/types';
import type { Words } from '../index';
import { the, upper } from './grammar';

const third: Record<Zone, string> = { cervical: 'zervikal', middle: 'Mitte', incisal: 'inzisal', whole: 'gesamt' };

const hand: Record<UnfiredAdvice, string> = {
  leave: 'So lassen',
  thin: 'Abnehmen',
  add: 'Zugeben',
  spread: 'Verteilen',
  cannot_tell: 'Nicht zu sagen',
};

const takes = (how: string) => (restoration: string, target: string | null): string => `${upper(the(restoration))} gilt als ${how} Restauration${target ? `, ${the(target)} als Ziel` : ''}.`;
const work = (label: string): string => (label ? `Arbeit „${label}“` : 'Eine Arbeit');

export const passes: Words['passes'] = {
  title: 'Nach dem Brand',
  how: 'Fotografieren Sie die gebrannte Restauration neben demselben Ziel, mit Karte und Farbmustern, und öffnen Sie dieses Foto. Restauration und Ziel müssen darin markiert sein.',
  openPhoto: 'Das Foto öffnen',
  fired: 'Dieses Foto zeigt das gebrannte Ergebnis',
  noPhoto: 'Kein Foto ist geöffnet.',
  noReading: 'Im geöffneten Foto ist keine Restauration markiert und gemessen.',
  isStart: 'Das geöffnete Foto zeigt, wovon der Plan ausgeht. Öffnen Sie das neue.',
  isUnfired: 'Das geöffnete Foto ist das von vor dem Brand. Öffnen Sie das neue.',
  inPhoto: 'Das Ziel ist auch im Foto: Alles wird unter seinem Licht verglichen.',
  notInPhoto: 'Das Ziel ist nicht in diesem Foto: Verglichen wird mit der Messung, aus der der Plan entstand, und die Unsicherheit ist größer.',
  takes: takes('gebrannte'),
  drift: (by) => `Das Ziel misst sich ganz anders als beim Planen (ΔE*ab ${by}). Ist es derselbe Zahn, so feucht wie damals, und das richtige Foto?`,
  strange: (by) => `Das Ziel maß sich anders als beim Planen (ΔE*ab ${by}): Das Foto könnte einen anderen Zahn zeigen; die Stärken lernen daraus nur, wenn Sie es unten sagen.`,
  mark: (by) => `Ziel maß sich anders (ΔE*ab ${by})`,
  carried: '„Vorher“ und „vorhergesagt“ sind über das Ziel in das Licht dieses Fotos gebracht und deshalb gegenüber dem Plan etwas verschoben.',
  head: (n) => `Durchgang ${n}, gebrannt. Der Plan ist das, was aufgetragen wurde; was herauskam, steht unter „Nach dem Brand“.`,
  waiting: {
    line: (label, how) => `${work(label)} wartet (${how}).`,
    steps: (n, done, of) => `Durchgang ${n}, ${done} von ${of} Schritten`,
    fired: (n) => `Durchgang ${n}, gebrannt`,
    goOn: 'Weiter',
  },
  close: 'Arbeit schließen',
  closeHint: '„Rückgängig“ holt sie wieder. Was die Stärken daraus gelernt haben, bleibt.',
  painted: 'Anders aufgetragen als geplant?',
  paintedHint: 'Geben Sie an, wie viele Schichten es sind: Davon hängt ab, was die Stärken lernen.',
  coats: (zone, mix) => `Schichten, ${third[zone]}${mix ? `: ${mix}` : ''}`,
  ways: 'Weg zum Ziel, ΔE00',
  waysKey: { before: 'vorher', left: 'Ergebnis; die Linie darunter ist seine Unsicherheit' },
  way: (zone, before, left) => `${zone}: ΔE00 zum Ziel vorher ${before}, jetzt ${left}.`,
  table: (n) => `Durchgang ${n} in Zahlen, L*a*b* D65`,
  heads: ['Drittel', 'Vorher', 'Vorhergesagt', 'Ergebnis', 'Ziel', 'ΔE00 übrig', 'ΔE00 daneben'],
  asPredicted: 'wie vorhergesagt',
  notAsPredicted: 'größer als die Unsicherheit',
  plusMinus: (doubt) => `± ${doubt}`,
  save: 'Arbeit als Datei speichern',
  open: 'Arbeit aus Datei öffnen',
  openFailed: (name) => `${name} ist keine Arbeit, die sich öffnen lässt. Nichts wurde geändert.`,
  file: (label) => `${label || 'arbeit'}.work.json`,
  next: 'Nächsten Durchgang planen',
  nextWhy: 'Das Ergebnis wird zum Ausgangspunkt.',
  takeBack: 'Durchgang zurücknehmen',
  history: (n) => (n === 1 ? 'Der bisherige Durchgang' : `Die ${n} bisherigen Durchgänge`),
  one: (n, before, left) => `Durchgang ${n}: ΔE00 ${before} → ${left}`,
  worst: 'schlechtestes Drittel',
  learn: 'Die Stärken lernen aus diesem Durchgang',
  learnHint: 'Seine Drittel stehen im Probenbuch.',
  note: (label, n, zone) => `${label ? `${label}, ` : ''}Durchgang ${n}, ${third[zone]}`,
  edits: {
    record: (n) => `Durchgang ${n} festhalten`,
    next: (n) => `Durchgang ${n} planen`,
    takeBack: (n) => `Durchgang ${n} zurücknehmen`,
    learn: (n, on) => (on ? `aus Durchgang ${n} lernen` : `nicht aus Durchgang ${n} lernen`),
    open: (name) => `${name} öffnen`,
    look: 'vor dem Brand ansehen',
    forget: 'Blick vor dem Brand vergessen',
  },
  said: {
    next: (n) => `Durchgang ${n} ist vom Ergebnis aus geplant.`,
    takenBack: (n) => `Durchgang ${n} ist zurückgenommen.`,
    learn: (n, on) => (on ? `Die Stärken lernen aus Durchgang ${n}.` : `Die Stärken lernen nicht mehr aus Durchgang ${n}.`),
    opened: (label) => `${label ? work(label) : 'Die Arbeit'} ist geöffnet. „Rückgängig“ holt wieder, was vorher da war.`,
    closed: 'Die Arbeit ist geschlossen. „Rückgängig“ holt sie wieder.',
    forgotten: 'Der Blick vor dem Brand ist vergessen.',
  },
  failed: 'Der Durchgang ließ sich nicht auswerten.',
  nextFailed: 'Der nächste Durchgang ließ sich nicht planen.',
  busy: 'Durchgang wird ausgewertet',
};

export const unfired: Words['unfired'] = {
  title: 'Zweiter Blick, vor dem Brand',
  how: 'Fotografieren Sie die bemalte, noch ungebrannte Restauration und öffnen Sie dieses Foto. Ungebrannt sieht Malfarbe anders aus als gebrannt: Bis Ihre eigenen Paare zeigen, um wie viel, gibt es hier nur Richtungen – welches Drittel mehr oder weniger hat als die anderen und was fleckig ist.',
  takes: takes('bemalte'),
  third: ({ advice, words }, directionsOnly) => (directionsOnly && advice.every((a) => a === 'leave') ? 'Hier fällt nichts auf.' : words),
  directions: 'Wie der Schritt sagt: Beurteilen Sie, wie gleichmäßig die Malfarbe ist und wo sie liegt. Wie hell oder kräftig es herauskommt, lässt sich so nicht sagen.',
  look: 'Dieses Foto zeigt es bemalt, ungebrannt',
  again: 'In diesem Foto neu ansehen',
  forget: 'Diesen Blick vergessen',
  hand: (advice) => hand[advice],
  fired: (lab, doubt) => `Gebrannt wäre es L*a*b* ${lab}, ± ${doubt} ΔE00.`,
  kept: 'Diese Messungen warten auf das gebrannte Ergebnis: Jedes Paar zeigt, was der Brand bewirkt.',
  failed: 'Die bemalte Restauration ließ sich nicht ansehen.',
  busy: 'Bemalung wird angesehen',
};
