/** What the words of the trade mean: two sentences each, shown where the word stands. */
export const help = {
  close: 'Close',
  /** By name. */
  terms: {
    shown: { value: 'Value', chroma: 'Chroma', hue: 'Hue', deltaE: 'ΔE00', doubt: 'Doubt' },
    texts: {
      value: 'Value (L*) is how light a colour is, from 0 for black to 100 for white. Stains lower it; only one whose own swatches show it can raise it.',
      chroma: 'Chroma (C*) is how strong a colour is; a pure grey has 0. Two colours may have the same value and hue and still differ, because one is stronger.',
      hue: 'Hue (h) is which colour it is, as an angle: near 0° red, near 90° yellow. Where chroma is small the hue is hardly seen, and its angle is unsure.',
      // Paravina et al. 2015, J Esthet Restor Dent 27(S1):S1–S9.
      deltaE: 'ΔE00 (CIEDE2000) is how far two colours lie apart, in value, chroma and hue together. In a study of dental ceramics half of the observers saw a difference at 0.8, and half no longer accepted it at 1.8 (Paravina et al. 2015).',
      doubt: 'Doubt (±) is how far a number may be off because of the light, the card and the photo, about 95 times in 100. A difference that is smaller than its doubt cannot be told.',
    },
  },
};
