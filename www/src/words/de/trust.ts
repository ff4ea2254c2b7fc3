import type { Words } from '../index';

export const trust: Words['trust'] = {
  title: 'Worauf die Messung steht',
  rungs: {
    card: 'Graukarte',
    card_steps: 'Karte mit Graustufen',
    card_and_tabs: 'Karte und Farbmuster',
    card_and_own_tabs: 'Karte und eigene gemessene Farbmuster',
  },
  here: 'hier',
  raise: 'Was sie sicherer machte',
  tabs: (n) => (n === 1 ? 'das Farbmuster dahinter' : `die ${n} Farbmuster dahinter`),
  byTabs: (name, delta) => `${name}: Die anderen Farbmuster treffen seine bekannte Farbe auf ${delta} ΔE00.`,
  byCard: (name, delta) => `${name}: Die Karte allein trifft seine bekannte Farbe auf ${delta} ΔE00.`,
  unusedByTabs: (name, delta) => `${name} wird nicht verwendet: Nach den anderen Farbmustern liegt es ${delta} ΔE00 neben seiner bekannten Farbe.`,
  unusedByCard: (name, delta) => `${name} wird nicht verwendet: Nach der Karte liegt es ${delta} ΔE00 neben seiner bekannten Farbe.`,
  falloff: (percent) => `Zwischen den umrissenen Stellen unterscheidet sich das Licht um ${percent}; das ist berichtigt.`,
  toneCurve: 'An den Graustufen wurde eine Tonwertkurve gefunden und zurückgerechnet.',
  polarised: 'Dieses Foto ist kreuzpolarisiert aufgenommen',
  polarisedHint: 'Dann zeigt es keinen Glanz, und es wird keiner herausgerechnet.',
  yes: 'Ja',
  no: 'Nein',
};
