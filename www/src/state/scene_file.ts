/** Scenes and guides as files: plain JSON, checked before anything on the desk changes. */
import { SHORTEST } from './borders';
import type { Card, Guide, Lab, PairTransform, Point, Region, Scene } from '../engine/types';

const MAX_REGIONS = 200;
const MAX_POINTS = 5000;
const PARTS = ['card', 'second_card', 'regions', 'cross_polarised', 'pair_transform'];
const KINDS: readonly unknown[] = ['tooth', 'restoration', 'tab'];

export class FileError extends Error {}

export const sceneToJson = (scene: Scene): string => `${JSON.stringify(scene, null, 1)}\n`;

/** Throws a `FileError` whose message says which part is wrong. */
export function sceneFromJson(text: string): Scene {
  const found = record(parsed(text), 'scene');
  // Something else saved as JSON must not take the outlines away.
  if (Object.keys(found).length > 0 && !PARTS.some((part) => part in found)) throw new FileError('scene');
  const { card, second_card, regions, cross_polarised, pair_transform } = found;
  const list = array(regions ?? [], MAX_REGIONS, 'regions').map(region);
  if (new Set(list.map((r) => r.id)).size < list.length) throw new FileError('id');
  return {
    card: card == null ? null : cardFrom(card),
    ...(second_card == null ? {} : { second_card: cardFrom(second_card) }),
    regions: list,
    ...(cross_polarised === true ? { cross_polarised } : {}),
    ...(pair_transform == null ? {} : { pair_transform: transformFrom(pair_transform) }),
  };
}

export const guideToJson = (guide: Guide): string => `${JSON.stringify(guide, null, 1)}\n`;

/** Only that it is JSON: names and colours are the engine's to check. */
export const guideFromJson = (text: string): Guide => record(parsed(text), 'guide') as unknown as Guide;

export function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new FileError('json');
  }
}

function region(value: unknown): Region {
  const { id, kind, name, outline, cervical, incisal, borders } = record(value, 'region');
  if (typeof id !== 'string' || id === '' || id.length > 100) throw new FileError('id');
  if (!KINDS.includes(kind)) throw new FileError('kind');
  return {
    id,
    kind: kind as Region['kind'],
    name: typeof name === 'string' ? name.slice(0, 100) : '',
    outline: outlineFrom(outline),
    ...(cervical == null ? {} : { cervical: point(cervical) }),
    ...(incisal == null ? {} : { incisal: point(incisal) }),
    ...(borders == null ? {} : { borders: bordersFrom(borders) }),
  };
}

function cardFrom(value: unknown): Card {
  const { outline, lab, reflectance, steps } = record(value, 'card');
  const list = array(steps ?? [], MAX_REGIONS, 'steps').map((step) => {
    const { outline, lab } = record(step, 'steps');
    return { outline: outlineFrom(outline), lab: labFrom(lab) };
  });
  const bare = outline == null || (Array.isArray(outline) && outline.length === 0);
  if (bare && list.length === 0) throw new FileError('card');
  return {
    outline: bare ? [] : outlineFrom(outline),
    ...(lab == null ? {} : { lab: labFrom(lab) }),
    ...(reflectance == null ? {} : { reflectance: number(reflectance, 'reflectance') }),
    ...(list.length ? { steps: list } : {}),
  };
}

function transformFrom(value: unknown): PairTransform {
  const rows = array(value, 2, 'transform').map((row) => array(row, 3, 'transform').map((v) => number(v, 'transform')));
  if (rows.length !== 2 || rows.some((row) => row.length !== 3)) throw new FileError('transform');
  return rows as PairTransform;
}

function bordersFrom(value: unknown): [number, number] {
  const [first, second] = array(value, 2, 'borders').map((v) => number(v, 'borders'));
  const sound = first !== undefined && second !== undefined && first >= SHORTEST && second - first >= SHORTEST && second <= 1 - SHORTEST;
  if (!sound) throw new FileError('borders');
  return [first, second];
}

function outlineFrom(value: unknown): Point[] {
  const points = array(value, MAX_POINTS, 'outline').map(point);
  if (points.length < 3) throw new FileError('outline');
  return points;
}

function point(value: unknown): Point {
  const [x, y] = array(value, 2, 'point').map((v) => number(v, 'point'));
  if (x === undefined || y === undefined) throw new FileError('point');
  return [x, y];
}

export function labFrom(value: unknown): Lab {
  const [l, a, b] = array(value, 3, 'lab').map((v) => number(v, 'lab'));
  if (l === undefined || a === undefined || b === undefined) throw new FileError('lab');
  return [l, a, b];
}

export function record(value: unknown, part: string): Record<string, unknown> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new FileError(part);
  return value as Record<string, unknown>;
}

export function array(value: unknown, max: number, part: string): unknown[] {
  if (!Array.isArray(value) || value.length > max) throw new FileError(part);
  return value;
}

export function number(value: unknown, part: string): number {
  if (typeof value !== 'number' || !Number.isFinite(value) || Math.abs(value) > 1e6) throw new FileError(part);
  return value;
}
