/**
 * The outlined things of a scene under one key each: the card, its steps, the card at a
 * second place, the regions.
 */
import type { Point, Region, Scene } from '../engine/types';

export type ShapeKey = 'card' | 'second' | `step:${number}` | `region:${string}`;

export const regionKey = (id: string): ShapeKey => `region:${id}`;
export const stepKey = (index: number): ShapeKey => `step:${index}`;

export const regionIdOf = (key: ShapeKey | null): string | null =>
  key?.startsWith('region:') ? key.slice('region:'.length) : null;

export const stepIndexOf = (key: ShapeKey | null): number | null =>
  key?.startsWith('step:') ? Number(key.slice('step:'.length)) : null;

export const regionById = (scene: Scene, id: string | null | undefined): Region | undefined =>
  scene.regions.find((region) => region.id === id);

export interface Shape {
  readonly key: ShapeKey;
  readonly outline: readonly Point[];
}

/** All shapes, card first. */
export function shapesOf(scene: Scene): Shape[] {
  const card = scene.card;
  return [
    ...(card && card.outline.length > 0 ? [{ key: 'card' as const, outline: card.outline }] : []),
    ...(card?.steps ?? []).map((step, i) => ({ key: stepKey(i), outline: step.outline })),
    ...(scene.second_card ? [{ key: 'second' as const, outline: scene.second_card.outline }] : []),
    ...scene.regions.map((region) => ({ key: regionKey(region.id), outline: region.outline })),
  ];
}

export const shapeOf = (scene: Scene, key: ShapeKey | null): Shape | undefined =>
  shapesOf(scene).find((shape) => shape.key === key);

/** Even-odd test. */
export function contains(outline: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  outline.forEach(([x1, y1], i) => {
    const [x0, y0] = outline.at(i - 1)!;
    if (y0 > y !== y1 > y && x < ((x1 - x0) * (y - y0)) / (y1 - y0) + x0) inside = !inside;
  });
  return inside;
}

/** The smallest shape under a point: a tab in front of a tooth is what was meant. */
export function shapeAt(scene: Scene, at: Point): ShapeKey | null {
  const hits = shapesOf(scene).filter((shape) => contains(shape.outline, at));
  hits.sort((a, b) => areaOf(a.outline) - areaOf(b.outline));
  return hits[0]?.key ?? null;
}

/** The shape under a point, or the one whose border is nearest within `reach`: fingers are wide. */
export function shapeNear(scene: Scene, at: Point, reach: number): ShapeKey | null {
  const near = shapesOf(scene)
    .map((shape) => ({ key: shape.key, away: distanceTo(shape.outline, at) }))
    .filter(({ away }) => away <= reach)
    .sort((a, b) => a.away - b.away);
  return shapeAt(scene, at) ?? near[0]?.key ?? null;
}

/** From a point to the nearest side of an outline. */
export function distanceTo(outline: readonly Point[], [x, y]: Point): number {
  const away = outline.map(([x1, y1], i) => {
    const [x0, y0] = outline.at(i - 1)!;
    const [dx, dy] = [x1 - x0, y1 - y0];
    const t = Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy || 1)));
    return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
  });
  return Math.min(...away);
}

export function areaOf(outline: readonly Point[]): number {
  const twice = outline.reduce((sum, [x1, y1], i) => {
    const [x0, y0] = outline.at(i - 1)!;
    return sum + x0 * y1 - x1 * y0;
  }, 0);
  return Math.abs(twice) / 2;
}

export interface Bounds {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

export function boundsOf(outline: readonly Point[]): Bounds {
  const xs = outline.map((p) => p[0]);
  const ys = outline.map((p) => p[1]);
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}

/** The middle of the bounding box. */
export function middleOf(outline: readonly Point[]): Point {
  const { left, top, right, bottom } = boundsOf(outline);
  return [(left + right) / 2, (top + bottom) / 2];
}
