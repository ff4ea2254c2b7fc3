import type { Words } from '../index';
import { bent } from './grammar';

export const notes: Words['notes'] = {
  title: 'Notizen zum Foto',
  gist: (n) => (n === 0 ? 'keine' : n === 1 ? '1 Notiz' : `${n} Notizen`),
  hint: 'Eine Notiz haftet an einer Stelle. Sie bleibt beim Foto und wird mit dem Bericht gedruckt. Bitte keine Patientennamen.',
  add: 'Notiz hinzufügen',
  addShort: 'Notiz',
  tap: 'Tippen Sie im Foto auf die Stelle.',
  middle: 'In der Mitte der Ansicht',
  cancel: 'Abbrechen',
  full: (n) => `Ein Foto fasst ${n} Notizen.`,
  note: (n) => `Notiz ${n}`,
  pin: (n, text) => `Notiz ${n}${text ? `: ${text}` : ''}. Pfeiltasten verschieben sie, Eingabe geht zum Text, Entf entfernt sie.`,
  text: (n) => `Text der Notiz ${n}`,
  show: (n) => `Notiz ${n} im Foto zeigen`,
  showShort: 'Zeigen',
  remove: (n) => `Notiz ${n} entfernen`,
  removeShort: 'Entfernen',
  added: (n, where) => `Notiz ${n} angeheftet: ${where}. Geben Sie ihren Text ein.`,
  moved: (n, where) => `Notiz ${n} ist jetzt ${where}.`,
  empty: 'noch kein Text',
  picture: 'Das Foto mit den Nadeln seiner Notizen',
  where: {
    on: (what) => `auf ${what}`,
    onThird: (what, third) => `auf ${what}, im ${bent(third)}`,
    beside: (what) => `neben ${what}`,
    parts: [
      'oben links', 'oben', 'oben rechts',
      'links', 'in der Mitte', 'rechts',
      'unten links', 'unten', 'unten rechts',
    ],
    of: (part) => `${part} im Foto`,
  },
  edits: {
    add: 'Notiz hinzufügen',
    move: 'Notiz verschieben',
    text: 'Notiz schreiben',
    remove: 'Notiz entfernen',
  },
};
