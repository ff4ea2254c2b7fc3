/** Editing an outline of many points through few handles. Points are photo pixels. */
import type { Point } from '../engine/types';

export const MIN_POINTS = 3;

const distance = ([x0, y0]: Point, [x1, y1]: Point): number => Math.hypot(x1 - x0, y1 - y0);

/**
 * Which points get a handle, so that two are at least `spacing` apart along the outline; `keep`
 * always gets one. Evenly spread, in outline order.
 */
export function handleIndices(outline: readonly Point[], spacing: number, keep: number | null = null): number[] {
  const n = outline.length;
  const lengths = outline.map((p, i) => distance(p, outline[(i + 1) % n]!));
  const perimeter = lengths.reduce((a, b) => a + b, 0);
  const wanted = Math.max(6, Math.floor(perimeter / spacing));
  if (wanted >= n) return outline.map((_, i) => i);
  // Every second, third … point: even where the points are even.
  const count = Math.max(6, Math.floor(n / Math.ceil(n / wanted)));
  const start = keep ?? 0;
  const chosen = new Set([start]);
  let [along, next] = [0, perimeter / count];
  for (let k = 1; k < n; k++) {
    const step = lengths[(start + k - 1) % n]!;
    along += step;
    // The point nearest to each even place, never the start again.
    if (along + lengths[(start + k) % n]! / 2 < next || chosen.size >= count) continue;
    chosen.add((start + k) % n);
    next += perimeter / count;
  }
  return apart([...chosen].sort((a, b) => a - b), outline, spacing, start);
}

/** Where points crowd (a rounded corner) one handle stands for them; three stay in any case. */
function apart(handles: number[], outline: readonly Point[], spacing: number, keep: number): number[] {
  const kept = [...handles];
  for (let i = 0; i < kept.length && kept.length > MIN_POINTS; ) {
    const next = (i + 1) % kept.length;
    const close = distance(outline[kept[i]!]!, outline[kept[next]!]!) < spacing / 2;
    if (!close) i++;
    else kept.splice(kept[next] === keep ? i : next, 1);
  }
  return kept;
}

/**
 * Moves point `index` by (dx, dy). The points without a handle between it and its neighbours
 * follow, less the farther they are, so that a fine outline stays smooth.
 */
export function dragPoint(outline: readonly Point[], index: number, handles: readonly number[], dx: number, dy: number): Point[] {
  const n = outline.length;
  const weights = new Map<number, number>([[index, 1]]);
  for (const direction of [1, -1]) {
    const reach = stepsToHandle(index, direction, handles, n);
    for (let k = 1; k < reach; k++) weights.set(wrap(index + direction * k, n), 1 - k / reach);
  }
  return outline.map(([x, y], i) => {
    const w = weights.get(i) ?? 0;
    return [x + w * dx, y + w * dy];
  });
}

/** A new point halfway to the next handle; gives the outline and the new point's index. */
export function insertPoint(outline: readonly Point[], index: number): { outline: Point[]; index: number } {
  const [x0, y0] = outline[index]!;
  const [x1, y1] = outline[(index + 1) % outline.length]!;
  const middle: Point = [(x0 + x1) / 2, (y0 + y1) / 2];
  return { outline: [...outline.slice(0, index + 1), middle, ...outline.slice(index + 1)], index: index + 1 };
}

/** Takes a handle away with the points that only it stood for; never below three points. */
export function removePoint(outline: readonly Point[], index: number, handles: readonly number[]): Point[] {
  const n = outline.length;
  const gone = new Set([index]);
  for (const direction of [1, -1]) {
    const reach = stepsToHandle(index, direction, handles, n);
    for (let k = 1; k < reach; k++) gone.add(wrap(index + direction * k, n));
  }
  const rest = outline.filter((_, i) => !gone.has(i));
  return rest.length >= MIN_POINTS ? rest : [...outline];
}

const wrap = (i: number, n: number): number => ((i % n) + n) % n;

function stepsToHandle(index: number, direction: number, handles: readonly number[], n: number): number {
  const known = new Set(handles);
  for (let k = 1; k < n; k++) if (known.has(wrap(index + direction * k, n))) return k;
  return n;
}
