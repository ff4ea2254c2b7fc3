import type { Words } from '../index';
import { lower } from './grammar';

export const tabs: Words['tabs'] = {
  title: 'Farben meiner Farbmuster',
  why: 'Jeder Satz Farbmuster ist etwas anders. Mit den Farben Ihrer eigenen, von einem Gerät gemessen (D65, 2°), steht die Messung auf festerem Boden.',
  setName: 'Name des Satzes',
  mine: 'Meine Farbmuster',
  note: 'An eigenen Farbmustern gemessen.',
  fill: 'Aus der Farbskala füllen',
  empty: 'Alle Felder leeren',
  open: 'Farbskala öffnen',
  add: 'Farbmuster hinzufügen',
  use: 'Diese Farben verwenden',
  save: 'Als Datei speichern',
  name: 'Farbmuster',
  thirds: 'Drittel',
  thirdsOf: (name) => `Drittel von Farbmuster ${name}`,
  remove: (name) => `Farbmuster ${name} entfernen`,
  fieldName: (n) => `Name von Farbmuster ${n}`,
  field: (name, zone, axis) => `Farbmuster ${name}, ${zone}, ${axis}`,
  row: { whole: 'gesamt', cervical: 'zervikal', middle: 'Mitte', incisal: 'inzisal' },
  caption: 'L* von 30 bis 100, a* von −10 bis 15, b* von −5 bis 45. Ein Farbmuster ohne Zahlen bleibt weg; Drittel dürfen leer bleiben.',
  faults: {
    none: 'Noch hat kein Farbmuster eine Farbe.',
    nameless: (n) => `Farbmuster ${n} hat keinen Namen.`,
    twice: (name) => `Es gibt zwei Farbmuster ${name}.`,
    missing: (name) => `Farbmuster ${name} hat keine Farbe für das Ganze.`,
    range: (name, zone, axis, min, max) => `Farbmuster ${name}, ${lower(zone)}: ${axis} muss eine Zahl von ${min} bis ${max} sein.`,
  },
  faultsTitle: 'Noch nicht verwendet:',
  inUse: (name, count) => (count === 1 ? `Die gemessene Farbe aus „${name}“ wird verwendet.` : `Die ${count} gemessenen Farben aus „${name}“ werden verwendet.`),
};
