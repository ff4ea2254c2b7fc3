/** Which way a new axis runs: as the old one did, for that may be the user's own. Pure. */
import type { Point, Region } from '../engine/types';
import { middleOf } from './shapes';

export interface Ends {
  cervical?: Point | undefined;
  incisal?: Point | undefined;
}

type Shaped = { outline: Point[]; cervical: Point; incisal: Point };

function unit({ cervical: c, incisal: i }: Ends): Point | null {
  if (!c || !i) return null;
  const length = Math.hypot(i[0] - c[0], i[1] - c[1]);
  return length > 0 ? [(i[0] - c[0]) / length, (i[1] - c[1]) / length] : null;
}

const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1];

/** The same axis, with its cervical end where the old one had it. */
export function alongOld<T extends { cervical: Point; incisal: Point }>(next: T, old: Ends): T {
  const [is, was] = [unit(next), unit(old)];
  return is && was && dot(is, was) < 0 ? { ...next, cervical: next.incisal, incisal: next.cervical } : next;
}

/** The cosine from which two axes run the same way. */
const SAME_WAY = 0.82;

/**
 * The axis of an outline that takes the place of an old one, or of a part of it. A short wide piece
 * is longest across, and a pair of teeth was longest across before it was parted: where the two
 * disagree, the other outlines of the scene tell.
 */
export function axisLike<T extends Shaped>(piece: T, old: Ends, others: readonly Region[]): T {
  const [is, was] = [unit(piece), unit(old)];
  if (!is || !was || Math.abs(dot(is, was)) >= SAME_WAY) return alongOld(piece, old);
  const agree = (way: Point) => others.reduce((sum, r) => sum + Math.abs(dot(way, unit(r) ?? [0, 0])), 0);
  return agree(is) > agree(was) ? piece : along(piece, was);
}

/** An axis along a direction, through the middle, from end to end of the outline. */
function along<T extends Shaped>(piece: T, way: Point): T {
  const middle = middleOf(piece.outline);
  const places = piece.outline.map(([x, y]) => dot([x - middle[0], y - middle[1]], way));
  const at = (t: number): Point => [middle[0] + t * way[0], middle[1] + t * way[1]];
  return { ...piece, cervical: at(Math.min(...places)), incisal: at(Math.max(...places)) };
}
