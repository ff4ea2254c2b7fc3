import { fixed } from '../charts/format';
import { evennessOf, type Evenness } from '../charts/evenness_scale';

const level: Record<Evenness, string> = { even: 'even', little: 'a little patchy', patchy: 'patchy' };

const said = (blotch: number): string => `${level[evennessOf(blotch)]}, ${fixed(blotch)} ΔE00`;

export const evenness = {
  title: 'Evenness',
  caption: 'How far a place usually strays from a smooth change between neck and edge, in ΔE00. Below 0.8 fewer than half see it: even. From 1.8 on: patchy.',
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
      shownFor: (names: string) => `The map shows where ${names} differs from its target: clear where alike, dark where darker, light where lighter.`,
      key: (full: string) => `Key to the map: from dark (ΔE00 ${full} or more darker than the target at the same height) over clear to light (ΔE00 ${full} or more lighter). Below 0.8 fewer than half see it.`,
      none: 'as the target',
    },
    uneven: {
      show: 'Where it is uneven',
      showLong: 'Lays a map over the photo: dark where a place is darker than the smooth course around it, light where it is lighter',
      shownFor: (names: string) => `The map shows where ${names} is uneven: clear where it is even, dark where darker, light where lighter.`,
      key: (full: string) => `Key to the map: from dark (ΔE00 ${full} darker than the smooth course) over clear to light (ΔE00 ${full} lighter). Below 0.8 fewer than half see it.`,
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
