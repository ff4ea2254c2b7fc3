import { evennessOf, type Evenness } from '../../charts/evenness_scale';
import { fixed } from '../../charts/format';
import type { Words } from '../index';
import { listed } from './grammar';

const level: Record<Evenness, string> = { even: 'gleichmäßig', little: 'etwas fleckig', patchy: 'fleckig' };

export const evenness: Words['evenness'] = {
  title: 'Gleichmäßigkeit',
  caption: 'Wie weit eine Stelle üblicherweise vom glatten Verlauf zwischen Zahnhals und Schneidekante abweicht, ΔE00. Unter 0,8 sieht es weniger als die Hälfte: gleichmäßig. Ab 1,8: fleckig.',
  word: (blotch) => level[evennessOf(blotch)],
  // It stands in a narrow column and may break there.
  said: (blotch) => `${level[evennessOf(blotch)].replace('gleich', 'gleich\u00ad')}, ${fixed(blotch)} ΔE00`,
  short: (blotch) => `${level[evennessOf(blotch)]} ${fixed(blotch)}`,
  surface: (blotch, than) => `Oberfläche ${level[evennessOf(blotch)]}, ΔE00 ${fixed(blotch)}${than === undefined ? '' : `; Ziel ${fixed(than)}`}`,
  maps: {
    differing: {
      show: 'Wo sie abweicht',
      showLong: 'Legt ein Helligkeitsbild über die Restauration: dunkel, wo sie dunkler ist als das Ziel auf gleicher Höhe, hell, wo sie heller ist',
      shownFor: (names) => `Gezeigt wird der Unterschied zum Ziel (${names}): klar, wo gleich, dunkel, wo dunkler, hell, wo heller.`,
      key: (full) => `Legende: von dunkel (um ΔE00 ${full} oder mehr dunkler) über klar bis hell (um ΔE00 ${full} oder mehr heller als das Ziel auf gleicher Höhe). Unter 0,8 sieht es weniger als die Hälfte.`,
      none: 'wie das Ziel',
    },
    uneven: {
      show: 'Wo sie ungleichmäßig ist',
      showLong: 'Legt ein Helligkeitsbild über das Foto: dunkel, wo eine Stelle dunkler ist als der glatte Verlauf um sie, hell, wo sie heller ist',
      shownFor: (names) => `Gezeigt wird die Ungleichmäßigkeit (${names}): klar, wo gleichmäßig, dunkel, wo dunkler, hell, wo heller.`,
      key: (full) => `Legende: von dunkel (um ΔE00 ${full} dunkler) über klar bis hell (um ΔE00 ${full} heller als der glatte Verlauf). Unter 0,8 sieht es weniger als die Hälfte.`,
      none: 'wie die Umgebung',
    },
  },
  onPhoto: 'Auf dem Foto',
  hidden: 'Das Helligkeitsbild ist ausgeblendet.',
  darker: 'dunkler',
  lighter: 'heller',
  unit: 'ΔE00',
  noMap: 'Hier lässt sich kein Helligkeitsbild machen.',
  pass: { before: 'Vorher', after: 'Nachher', target: 'Ziel' },
  and: listed,
  hide: 'Ausblenden',
};
