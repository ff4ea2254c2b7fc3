/** Edits of a scene: scene in, new scene out. */
import type { Card, PairTransform, Point, Region, RegionKind, Scene } from '../engine/types';
import { regionIdOf, shapeOf, stepIndexOf, type ShapeKey } from './shapes';

/** Photo pixels to a tenth: finer is noise and bloats the file. */
const rounded = ([x, y]: Point): Point => [Math.round(x * 10) / 10, Math.round(y * 10) / 10];

export function withOutline(scene: Scene, key: ShapeKey, outline: readonly Point[]): Scene {
  const points = outline.map(rounded);
  const step = stepIndexOf(key);
  if (key === 'second') return withSecondCard(scene, { ...scene.second_card, outline: points });
  if (key === 'card' || step !== null) {
    const { card } = scene;
    if (!card) return scene;
    if (step === null) return { ...scene, card: { ...card, outline: points } };
    const steps = (card.steps ?? []).map((s, i) => (i === step ? { ...s, outline: points } : s));
    return { ...scene, card: { ...card, steps } };
  }
  return withRegion(scene, regionIdOf(key), { outline: points });
}

export function withRegion(scene: Scene, id: string | null, change: Partial<Region>): Scene {
  return { ...scene, regions: scene.regions.map((r) => (r.id === id ? { ...r, ...change } : r)) };
}

export const withCard = (scene: Scene, card: Card | null): Scene => ({ ...scene, card });

/** A part that has no value is left out, so that the file does not speak of it. */
function withPart<K extends 'second_card' | 'cross_polarised' | 'pair_transform'>(scene: Scene, part: K, value: Scene[K] | null): Scene {
  const { [part]: _, ...rest } = scene;
  return (value ? { ...rest, [part]: value } : rest) as Scene;
}

export const withSecondCard = (scene: Scene, card: Card | null): Scene => withPart(scene, 'second_card', card);

export const withCrossPolarised = (scene: Scene, on: boolean): Scene => withPart(scene, 'cross_polarised', on || null);

export const withPairTransform = (scene: Scene, transform: PairTransform | null): Scene => withPart(scene, 'pair_transform', transform);

/** Moves an outline, and the axis with it. */
export function moved(scene: Scene, key: ShapeKey, dx: number, dy: number): Scene {
  const shift = ([x, y]: Point): Point => rounded([x + dx, y + dy]);
  const shape = shapeOf(scene, key);
  if (!shape) return scene;
  const next = withOutline(scene, key, shape.outline.map(shift));
  const region = next.regions.find((r) => r.id === regionIdOf(key));
  if (!region) return next;
  return withRegion(next, region.id, {
    cervical: region.cervical && shift(region.cervical),
    incisal: region.incisal && shift(region.incisal),
  });
}

/** A region with another outline and axis; name, kind and borders stay. */
export const reshaped = (region: Region, { outline, cervical, incisal }: Pick<NewRegion, 'outline' | 'cervical' | 'incisal'>): Region => ({
  ...region,
  outline: outline.map(rounded),
  cervical: rounded(cervical),
  incisal: rounded(incisal),
});

export type AxisEnd = 'cervical' | 'incisal';

export const withAxisEnd = (scene: Scene, id: string, end: AxisEnd, at: Point): Scene =>
  withRegion(scene, id, { [end]: rounded(at) });

export function removed(scene: Scene, key: ShapeKey): Scene {
  const step = stepIndexOf(key);
  if (key === 'second') return withSecondCard(scene, null);
  if (key === 'card') return { ...scene, card: scene.card?.steps?.length ? { ...scene.card, outline: [] } : null };
  if (step !== null && scene.card) {
    const steps = (scene.card.steps ?? []).filter((_, i) => i !== step);
    const empty = steps.length === 0 && scene.card.outline.length === 0;
    return { ...scene, card: empty ? null : { ...scene.card, steps } };
  }
  return { ...scene, regions: scene.regions.filter((r) => r.id !== regionIdOf(key)) };
}

export interface NewRegion {
  kind: RegionKind;
  name: string;
  outline: Point[];
  cervical: Point;
  incisal: Point;
}

export function added(scene: Scene, region: NewRegion): { scene: Scene; id: string } {
  const id = freshId(scene, region.kind);
  const { outline, cervical, incisal } = region;
  const clean = { outline: outline.map(rounded), cervical: rounded(cervical), incisal: rounded(incisal) };
  return { scene: { ...scene, regions: [...scene.regions, { ...region, ...clean, id }] }, id };
}

function freshId(scene: Scene, kind: RegionKind): string {
  const taken = new Set(scene.regions.map((r) => r.id));
  for (let n = 1; ; n++) if (!taken.has(`${kind}-${n}`)) return `${kind}-${n}`;
}
