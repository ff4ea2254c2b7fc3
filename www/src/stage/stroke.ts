/** The swipe that cuts: which drags are meant as one. Stage pixels throughout; pure but for the signal. */
import { signal } from '@preact/signals';
import type { Point } from '../engine/types';
import { contains, distanceTo } from '../state/shapes';

/** The swipe being drawn. */
export const stroke = signal<Point[] | null>(null);

/** A swipe begins at most this far from the outline. */
export const REACH_PX = 80;

/** It begins outside, but near. */
export const mayCut = (outline: readonly Point[], at: Point): boolean => !contains(outline, at) && distanceTo(outline, at) <= REACH_PX;

const side = ([ax, ay]: Point, [bx, by]: Point, [px, py]: Point): number => (bx - ax) * (py - ay) - (by - ay) * (px - ax);

const cross = (a: Point, b: Point, c: Point, d: Point): boolean => side(a, b, c) > 0 !== side(a, b, d) > 0 && side(c, d, a) > 0 !== side(c, d, b) > 0;

/** How often a path crosses the outline. */
export function crossings(outline: readonly Point[], path: readonly Point[]): number {
  let count = 0;
  for (let k = 1; k < path.length; k++) {
    outline.forEach((p, i) => {
      if (cross(path[k - 1]!, path[k]!, outline.at(i - 1)!, p)) count++;
    });
  }
  return count;
}

/** A drag that sets out towards the outline means to cut it; any other moves the photo. */
export function aimsAt(outline: readonly Point[], from: Point, to: Point): boolean {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const far = (2 * REACH_PX) / length;
  return crossings(outline, [from, [from[0] + (to[0] - from[0]) * far, from[1] + (to[1] - from[1]) * far]]) > 0;
}

/** A path that began outside entered the outline and left it again. */
export const cuts = (outline: readonly Point[], path: readonly Point[]): boolean => !contains(outline, path.at(-1)!) && crossings(outline, path) > 0;

/** How far an outline reaches to either side of a point, along a unit vector. */
export function reachAcross(outline: readonly Point[], [x, y]: Point, [nx, ny]: Point): [number, number] {
  let [least, most] = [0, 0];
  outline.forEach(([x1, y1], i) => {
    const [x0, y0] = outline.at(i - 1)!;
    const [s0, s1] = [(x0 - x) * ny - (y0 - y) * nx, (x1 - x) * ny - (y1 - y) * nx];
    if (s0 > 0 === s1 > 0) return;
    const t = s0 / (s0 - s1);
    const along = (x0 + t * (x1 - x0) - x) * nx + (y0 + t * (y1 - y0) - y) * ny;
    least = Math.min(least, along);
    most = Math.max(most, along);
  });
  return [least, most];
}
