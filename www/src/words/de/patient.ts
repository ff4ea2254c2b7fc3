/** What patients read in German. The place stands before the amount, so that the sentence stays one. */
import type { Beside } from '../../state/patient/facts';
import type { Remedy } from '../../state/patient/remedy_model';
import type { Amount, Clause, Way, Where } from '../../state/patient/sentence_model';
import type { Thing } from '../../state/patient/thing';
import type { Third } from '../../state/stains/typed_plan';
import type { Words } from '../index';
import { listed, upper } from './grammar';

const BESIDE: Record<Beside, { is: string; than: string }> = {
  neighbour: { is: 'der Zahn daneben', than: 'dem Zahn daneben' },
  tooth: { is: 'der Vergleichszahn', than: 'dem Vergleichszahn' },
  sample: { is: 'die Vergleichsprobe', than: 'der Vergleichsprobe' },
};
const YOURS: Record<Thing, { is: string; between: string }> = {
  crown: { is: 'Ihre Krone', between: 'Ihrer Krone' },
  veneer: { is: 'Ihr Veneer', between: 'Ihrem Veneer' },
};
const WAYS: Record<Way, string> = { brighter: 'heller', darker: 'dunkler', stronger: 'kräftiger in der Farbe', paler: 'blasser', yellower: 'gelblicher', redder: 'rötlicher' };
const AMOUNT: Record<Amount, string> = { little: 'etwas', clearly: 'deutlich', much: 'viel' };
const DIFFERENT: Record<Amount, string> = { little: 'ein wenig anders', clearly: 'deutlich anders', much: 'ganz anders' };
const THIRD: Record<Third, string> = { cervical: 'am Zahnfleisch', middle: 'in der Mitte', incisal: 'an der Schneidekante' };

const where = ({ thirds, mostly }: Where): string => (thirds.length === 3 ? 'überall' : `${mostly ? 'vor allem ' : ''}${listed(thirds.map((t) => THIRD[t]))}`);
const how = ({ amount, ways }: Clause): string => (ways.length > 0 ? `${AMOUNT[amount]} ${listed(ways.map((w) => WAYS[w]))}` : `${DIFFERENT[amount]} in der Farbe`);

/** „vor allem an der Schneidekante viel heller als der Zahn daneben und am Zahnfleisch etwas blasser“. */
const differs = ([first, ...others]: readonly Clause[], beside: string): string =>
  first ? `${where(first.where)} ${how(first)} als ${beside}${others.map((c) => ` und ${where(c.where)} ${how(c)}`).join('')}` : '';

const coats = (n: number): string => `${['', 'eine dünne Schicht', 'zwei dünne Schichten', 'drei dünne Schichten'][n] ?? 'mehrere dünne Schichten'} Farbe`;

function remedied(remedy: Remedy | null, thing: string): string {
  if (!remedy) return '';
  if (remedy.kind === 'darkens') return '; Farbe dieser Art kann nur abdunkeln, deshalb bespricht Ihre Praxis mit Ihnen andere Möglichkeiten';
  if (remedy.kind === 'no-gain') return '; Bemalen würde sie einander nicht ähnlicher machen';
  const end = {
    together: 'beide einander angleichen',
    'closer-maybe': 'beide einander näherbringen, ein kleiner Unterschied kann bleiben',
    closer: 'beide einander näherbringen, ein Unterschied bliebe aber',
  }[remedy.kind];
  return `; ${coats(remedy.coats)} ${remedy.coats === 1 ? 'könnte' : 'könnten'} ${end}${remedy.price ? `, und ${thing} könnte etwas weniger lebendig wirken` : ''}`;
}

export const patient: Words['patient'] = {
  show: 'Patientenansicht',
  notYet: 'Für die Patientenansicht gibt es noch nichts zu zeigen.',
  title: 'Patientenansicht',
  setup: 'Bevor Sie das Gerät umdrehen: Es geht um',
  kinds: { crown: 'eine Krone', veneer: 'ein Veneer' },
  ready: 'Überreichen',
  tooth: (beside) => (beside === 'sample' ? 'Die Vergleichsprobe' : 'Ihr Zahn'),
  yours: (thing) => YOURS[thing].is,
  picture: (what, look) => `${what}, aufrecht, ${{ now: 'wie jetzt', grey: 'nur die Helligkeit', painted: 'wie nach dem Bemalen berechnet' }[look]}`,
  waiting: 'Die Bilder werden gemacht …',
  choice: 'Was die Bilder zeigen',
  choose: { now: 'Wie jetzt', grey: 'Nur Helligkeit', painted: 'Nach dem Bemalen' },
  example: 'Nach dem Bemalen (Beispiel)',
  shown: {
    grey: 'Nur hell und dunkel, ganz ohne Farbe.',
    painted: 'Ein berechnetes Bild, kein Versprechen.',
  },
  inventedShown: 'Nur ein Beispiel mit erfundenen Farben: Über Ihren eigenen Zahn sagt es nichts.',
  inColour: 'Hier sehen beide gleich aus: Der Unterschied liegt in der Farbe.',
  slide: {
    label: 'Von jetzt bis nach dem Bemalen',
    now: 'jetzt',
    after: 'danach',
    at: (share) => (share < 0.05 ? 'wie jetzt' : share < 0.4 ? 'etwas bemalt' : share <= 0.6 ? 'halb bemalt' : share < 0.95 ? 'fast ganz bemalt' : 'nach dem Bemalen'),
  },
  said({ difference, remedy, beside: target, partly }, thing) {
    const [beside, yours] = [BESIDE[target], YOURS[thing]];
    const both = `${yours.is} und ${beside.is}`;
    if (difference.kind === 'unsure') return `Mit diesem Foto lässt sich zwischen ${yours.between} und ${beside.than} kein sicherer Unterschied erkennen${remedied(remedy, yours.is)}.`;
    const [who, verb, rest] = {
      alike: [both, 'sind', 'einander so ähnlich, dass die meisten Menschen keinen Unterschied sehen würden'],
      hardly: [both, 'sind', 'kaum verschieden'],
      differs: [yours.is, 'ist', difference.kind === 'differs' ? differs(difference.clauses, beside.is) : ''],
    }[difference.kind] as [string, string, string];
    // What comes first turns subject and verb round.
    return upper(`${partly ? `soweit das Foto es zeigt, ${verb} ${who}` : `${who} ${verb}`} ${rest}${remedied(remedy, yours.is)}.`);
  },
  decides: 'Was gemacht wird, entscheidet Ihre Zahnärztin oder Ihr Zahnarzt.',
  back: 'Zurück (halten)',
  holding: ['Weiter halten …', 'Gleich …'],
  holdHint: 'Einen Moment halten, um zu den Messungen zurückzukehren. Kurzes Drücken fragt zuerst.',
  ask: 'Zurück zu den Messungen?',
  yes: 'Ja',
  no: 'Nein',
};
