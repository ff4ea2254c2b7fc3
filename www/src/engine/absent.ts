/** What stands for a photo that is not here. Pure. */
import type { KeptPhotoReading, OpenPhoto } from './desk';
import { EngineError, type Card, type PhotoInfo, type Point, type Preview, type Report, type Scene } from './types';

/** Something was asked about a photo that is not here. */
export class AbsentError extends EngineError {
  constructor() {
    super('input', 'The photo is not here.');
  }
}

const LONG_SIDE_PX = 96;
const GREY = 118;

/** Grey of the photo's shape. */
export function emptyPicture({ width, height }: PhotoInfo): Preview {
  const k = LONG_SIDE_PX / Math.max(width, height);
  const [w, h] = [Math.max(1, Math.round(k * width)), Math.max(1, Math.round(k * height))];
  const rgba = new Uint8Array(4 * w * h).fill(GREY);
  for (let i = 3; i < rgba.length; i += 4) rgba[i] = 255;
  return { width: w, height: h, rgba };
}

/** The same scene in a copy that is smaller by `scale`. The middle of the first pixel is 0, 0. */
export function scaledScene(scene: Scene, scale: number): Scene {
  if (scale === 1) return scene;
  const at = ([x, y]: Point): Point => [(x + 0.5) * scale - 0.5, (y + 0.5) * scale - 0.5];
  const card = (c: Card): Card => ({ ...c, outline: c.outline.map(at), ...(c.steps && { steps: c.steps.map((s) => ({ ...s, outline: s.outline.map(at) })) }) });
  const { pair_transform: _, ...rest } = scene;
  return {
    ...rest,
    card: scene.card && card(scene.card),
    ...(scene.second_card && { second_card: card(scene.second_card) }),
    regions: scene.regions.map((r) => ({ ...r, outline: r.outline.map(at), ...(r.cervical && { cervical: at(r.cervical) }), ...(r.incisal && { incisal: at(r.incisal) }) })),
  };
}

/** With the keys in one order, and without those that say nothing. */
const ordered = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(ordered);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).filter(([, v]) => v !== undefined && v !== null && v !== '' && !(Array.isArray(v) && v.length === 0));
  return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([k, v]) => [k, ordered(v)]));
};

export const sameScene = (a: Scene, b: Scene): boolean => JSON.stringify(ordered(a)) === JSON.stringify(ordered(b));

export function notACopy({ kept }: OpenPhoto): void {
  if (kept && kept.scale !== 1) throw new AbsentError();
}

/** What was kept holds for the scene it was read from. */
export function keptReport({ report }: KeptPhotoReading, scene: Scene): Report {
  if (!report || !sameScene(report.scene, scene)) throw new AbsentError();
  return report;
}
