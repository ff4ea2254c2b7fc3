import type { Words } from '../index';

export const help: Words['help'] = {
  close: 'Schließen',
  terms: {
    shown: { value: 'Helligkeit', chroma: 'Chroma', hue: 'Farbton', deltaE: 'ΔE00', doubt: 'Unsicherheit' },
    texts: {
      value: 'Die Helligkeit (L*) sagt, wie hell eine Farbe ist, von 0 für Schwarz bis 100 für Weiß. Malfarben senken sie; anheben kann sie nur eine, deren eigene Brennproben das zeigen.',
      chroma: 'Das Chroma (C*) sagt, wie kräftig eine Farbe ist; reines Grau hat 0. Zwei Farben können in Helligkeit und Farbton gleich und doch verschieden sein, weil eine kräftiger ist.',
      hue: 'Der Farbton (h) sagt als Winkel, welche Farbe es ist: nahe 0° rot, nahe 90° gelb. Bei kleinem Chroma sieht man den Farbton kaum, und sein Winkel ist unsicher.',
      deltaE: 'ΔE00 (CIEDE2000) sagt, wie weit zwei Farben in Helligkeit, Chroma und Farbton zusammen auseinanderliegen. In einer Studie an Dentalkeramik sah die Hälfte der Beobachter einen Unterschied ab 0,8, und die Hälfte nahm ihn ab 1,8 nicht mehr hin (Paravina et al. 2015).',
      doubt: 'Die Unsicherheit (±) sagt, wie weit eine Zahl wegen Licht, Karte und Foto danebenliegen kann, in etwa 95 von 100 Fällen. Ein Unterschied, der kleiner ist als seine Unsicherheit, lässt sich nicht erkennen.',
    },
  },
};
