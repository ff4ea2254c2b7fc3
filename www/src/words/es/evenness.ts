import type { Words } from '../index';
import { fixed } from '../../charts/format';
import { evennessOf, type Evenness } from '../../charts/evenness_scale';
import { listed, the } from './grammar';

const level: Record<Evenness, string> = { even: 'uniforme', little: 'algo irregular', patchy: 'irregular' };

export const evenness: Words['evenness'] = {
  title: 'Uniformidad',
  caption: 'Cuánto suele apartarse un punto del cambio suave desde el cuello hasta el borde, en ΔE00. Por debajo de 0,8 lo ve menos de la mitad: uniforme. A partir de 1,8: irregular.',
  word: (blotch) => level[evennessOf(blotch)],
  said: (blotch) => `${level[evennessOf(blotch)]}, ${fixed(blotch)} ΔE00`,
  short: (blotch) => `${level[evennessOf(blotch)]} ${fixed(blotch)}`,
  surface: (blotch, than) => `Superficie ${level[evennessOf(blotch)]}, ΔE00 ${fixed(blotch)}${than === undefined ? '' : `; objetivo ${fixed(than)}`}`,
  maps: {
    differing: {
      show: 'Dónde difiere',
      showLong: 'Superpone un mapa a la restauración: oscuro donde es más oscura que el objetivo a la misma altura, claro donde es más clara',
      shownFor: (names) => `Se muestra dónde difiere de su objetivo ${names}: transparente donde es igual, oscuro donde el color es más oscuro, claro donde es más claro.`,
      key: (full) => `Leyenda del mapa: de oscuro (ΔE00 ${full} o más, más oscuro), pasando por transparente, a claro (ΔE00 ${full} o más, más claro que el objetivo a la misma altura). Por debajo de 0,8 lo ve menos de la mitad.`,
      none: 'como el objetivo',
    },
    uneven: {
      show: 'Dónde es irregular',
      showLong: 'Superpone un mapa a la foto: oscuro donde un punto es más oscuro que el curso suave que lo rodea, claro donde es más claro',
      shownFor: (names) => `Se muestra dónde es irregular ${names}: transparente donde es uniforme, oscuro donde el color es más oscuro, claro donde es más claro.`,
      key: (full) => `Leyenda del mapa: de oscuro (ΔE00 ${full} más oscuro), pasando por transparente, a claro (ΔE00 ${full} más claro que el curso suave). Por debajo de 0,8 lo ve menos de la mitad.`,
      none: 'como su entorno',
    },
  },
  onPhoto: 'Sobre la foto',
  hidden: 'El mapa está oculto.',
  darker: 'más oscuro',
  lighter: 'más claro',
  unit: 'ΔE00',
  noMap: 'Aquí no se puede hacer ningún mapa.',
  pass: { before: 'Antes', after: 'Después', target: 'Objetivo' },
  and: (names) => listed(names.map(the)),
  hide: 'Ocultar',
};
