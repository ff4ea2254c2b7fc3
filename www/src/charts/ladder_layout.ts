/** Where the tabs of a ladder lie on a line of ΔE00, and how their names keep clear of each other. */
import type { Ladder, Rung } from '../engine/types';
import { fixed } from './format';
import { linear } from './linear';

/** Paravina et al. 2015: half of observers see 0.8, half would want 1.8 corrected. */
export const PERCEPTIBILITY_DELTA_E_00 = 0.8;
export const ACCEPTABILITY_DELTA_E_00 = 1.8;

const MAX_ROWS = 3;
const CHARACTER_PX = 8.2;
const GAP_PX = 10;
const SHOWN = 7;
const LONGEST_DELTA_E_00 = 12;

export interface Mark {
  name: string;
  x: number;
  /** Row of its name, 0 nearest the line; `null` when there was no room. */
  row: number | null;
  inPhoto: boolean;
  nearest: boolean;
  value: string;
}

/** The tabs that are drawn: those in the photo, then the nearest of the guide. */
export function shownRungs(tabs: readonly Rung[]): Rung[] {
  const inPhoto = tabs.filter((r) => r.basis === 'in_photo');
  const others = tabs.filter((r) => r.basis !== 'in_photo');
  const shown = new Set([...inPhoto, ...others.slice(0, Math.max(2, SHOWN - inPhoto.length))]);
  return tabs.filter((r) => shown.has(r));
}

/** One end for all lanes of a region, so that they can be compared down the page. */
export function ladderEnd(ladders: readonly Ladder[]): number {
  const shown = ladders.flatMap((l) => shownRungs(l.tabs)).map((r) => r.delta_e_00);
  return Math.min(Math.max(3, Math.ceil(Math.max(0, ...shown) + 0.3)), LONGEST_DELTA_E_00);
}

export const ladderScale = (end: number, width: number) => linear([0, end], [14, width - 30]);

export function ladderMarks(tabs: readonly Rung[], end: number, width: number): Mark[] {
  const x = ladderScale(end, width);
  const rowEnds: number[] = [];
  return shownRungs(tabs)
    .filter((r) => r.delta_e_00 <= end)
    .map((rung) => {
      const at = x(rung.delta_e_00);
      const half = (rung.name.length * CHARACTER_PX + GAP_PX) / 2;
      let row: number | null = [0, 1, 2].find((r) => (rowEnds[r] ?? -Infinity) <= at - half) ?? null;
      if (row !== null && row >= MAX_ROWS) row = null;
      if (row !== null) rowEnds[row] = at + half;
      return {
        name: rung.name,
        x: at,
        row,
        inPhoto: rung.basis === 'in_photo',
        nearest: rung === tabs[0],
        value: fixed(rung.delta_e_00),
      };
    });
}
