import { fixed } from '../charts/format';
import { evennessOf, type Evenness } from '../charts/evenness_scale';

const level: Record<Evenness, string> = { even: 'even', little: 'a little patchy', patchy: 'patchy' };

const said = (blotch: number): string => `${level[evennessOf(blotch)]}, ${fixed(blotch)} ΔE00`;

export const evenness = {
  title: 'Evenness',
  caption: 'How much a place usually differs from the smooth change from neck to edge, ΔE00. Below 0.8 fewer than half see it: even. From 1.8 on: patchy.',
  word: (blotch: number): string => level[evennessOf(blotch)],
  /** Word and figure. */
  said,
  short: (blotch: number): string => `${level[evennessOf(blotch)]} ${fixed(blotch)}`,
  /** In the sheet, where a third is less even than it should be. */
  surface: (blotch: number, than: number | undefined): string => `Surface ${level[evennessOf(blotch)]}, ΔE00 ${fixed(blotch)}${than === undefined ? '' : `; target ${fixed(than)}`}`,
  maps: {
    differing: {
      show: 'Where it differs',
      showLong: 'Lays a map over the restoration: dark where it is darker than the target at the same height, light where it is lighter',
      shownFor: (names: string) => `Shown is where ${names} differs from its target: clear where alike, dark where darker, light where lighter.`,
      key: 'Key of the map: from dark at ΔE00 6 and darker, over clear, to light at ΔE00 6 and lighter than the target at the same height. Below 0.8 fewer than half see it.',
      none: 'as the target',
    },
    uneven: {
      show: 'Where it is uneven',
      showLong: 'Lays a map over the photo: dark where a place is darker than the smooth course around it, light where it is lighter',
      shownFor: (names: string) => `Shown is where ${names} is uneven: clear where it is even, dark where darker, light where lighter.`,
      key: 'Key of the map: from dark at ΔE00 3 darker, over clear, to light at ΔE00 3 lighter than the smooth course. Below 0.8 fewer than half see it.',
      none: 'as around it',
    },
  },
  onPhoto: 'On the photo',
  hidden: 'The map is hidden.',
  darker: 'darker',
  lighter: 'lighter',
  unit: 'ΔE00',
  noMap: 'No map can be made here.',
  pass: { before: 'Before', after: 'After', target: 'Target' },
  and: (names: readonly string[]) => names.join(' and '),
  hide: 'Hide',
};
