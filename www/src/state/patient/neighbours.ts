/** Whether two teeth stand side by side, seen along their own axis. Pure. */
import type { Point, Region } from '../../engine/types';

/** Wider than this share of the narrower one there could be another tooth between. Our own choice. */
const GAP = 0.25;
/** They share so much of the shorter one's height. */
const LEVEL = 0.5;

const range = (values: readonly number[]): [number, number] => [Math.min(...values), Math.max(...values)];

export function sideBySide(one: Region, other: Region): boolean {
  const [[x0, y0], [x1, y1]] = [one.cervical ?? [0, 0], one.incisal ?? [0, 1]];
  const length = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
  const along = ([x, y]: Point) => x * ux + y * uy;
  const across = ([x, y]: Point) => x * uy - y * ux;
  /** Negative where they lie apart. */
  const shared = (place: (p: Point) => number) => {
    const [[a0, a1], [b0, b1]] = [range(one.outline.map(place)), range(other.outline.map(place))];
    return { by: Math.min(a1, b1) - Math.max(a0, b0), of: Math.min(a1 - a0, b1 - b0) };
  };
  const [level, gap] = [shared(along), shared(across)];
  return level.by >= LEVEL * level.of && gap.by >= -GAP * gap.of && gap.by < LEVEL * gap.of;
}
