import type { Words } from '../index';

export const flow: Words['flow'] = {
  title: 'Schritte',
  steps: { photo: 'Foto', card: 'Karte', tabs: 'Farb\u00admuster', teeth: 'Zahn und Restauration' },
  count: (n) => (n > 1 ? `${n} fertig` : 'fertig'),
  card: { say: 'Tippen Sie im Foto auf die Graukarte.', hint: 'Oder ziehen Sie einen Rahmen darum. Ihre Druckfarbe lässt sich danach eingeben.' },
  step: { say: 'Tippen Sie auf die nächste Graustufe der Karte.', hint: 'Geben Sie dann ihre Druckfarbe ein.' },
  second: { say: 'Tippen Sie auf die Karte an ihrer zweiten Stelle.', hint: 'Dieselbe Karte noch einmal oder eine andere im selben Grau, entfernt von der ersten.' },
  tab: {
    before: 'Farbmuster',
    after: 'im Foto antippen.',
    nameless: 'Name?',
    change: (name) => (name ? `Nächstes Farbmuster: ${name}. Anderen Namen wählen` : 'Namen des nächsten Farbmusters wählen'),
    hint: 'Dann das nächste. Drücken Sie auf den Namen, um einen anderen zu wählen.',
    done: 'Alle Farbmuster markiert',
    skip: 'Kein Farbmuster im Foto',
  },
  tooth: { say: 'Tippen Sie auf den natürlichen Zahn.', hint: 'In die Mitte seiner sichtbaren Fläche, abseits von Glanz.', done: 'Weiter: Restauration' },
  restoration: { say: 'Tippen Sie auf die Krone oder das Veneer.', hint: 'Umrissen oder nicht. Keine im Bild? Drücken Sie „Fertig“.' },
  finished: 'Fertig',
  look: { say: 'Wählen Sie oben einen Schritt, um etwas zu markieren.', ready: 'Tippen Sie im Foto auf einen Umriss, um ihn zu ändern, oder auf einen Schritt, um mehr zu markieren.' },
  toReading: 'Messung zeigen',
  typed: 'Anderer Name',
  typedAdd: 'Nehmen',
  nextName: 'Name des Farbmusters',
  byNumbers: 'Durch Zahlen',
  byNumbersLong: 'Ohne Tippen: ein Rechteck setzen und seine Ecken als Zahlen eingeben',
};
