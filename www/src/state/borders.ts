/** Where the thirds of a region meet along its axis: 0 at the cervical end, 1 at the incisal one. Pure. */
import type { Region, Scene } from '../engine/types';
import { withRegion } from './scene_edit';
import { regionById } from './shapes';

export type Borders = readonly [number, number];

export const EVEN: Borders = [1 / 3, 2 / 3];
/** No third is shorter; the engine refuses it. */
export const SHORTEST = 0.1;

export const bordersOf = (region: Region): Borders => region.borders ?? EVEN;

/** Whether somebody has shifted them. */
export const hasOwnThirds = (region: Region): boolean => bordersOf(region).some((t, i) => Math.abs(t - EVEN[i]!) > 1e-6);

/** To a thousandth of the axis. */
const rounded = (t: number): number => Math.round(t * 1000) / 1000;

/** One border moved; the other one stays, and every third keeps a length. */
export function movedBorder([first, second]: Borders, which: 0 | 1, to: number): [number, number] {
  const at = rounded(to);
  const next: [number, number] = which === 0 ? [Math.min(Math.max(at, SHORTEST), rounded(second - SHORTEST)), second] : [first, Math.min(Math.max(at, rounded(first + SHORTEST)), 1 - SHORTEST)];
  // 0.7 − 0.6 is less than 0.1 in binary.
  if (next[1] - next[0] < SHORTEST) next[which] += which === 0 ? -0.001 : 0.001;
  return next;
}

export function withBorder(scene: Scene, id: string, which: 0 | 1, to: number): Scene {
  const region = regionById(scene, id);
  return region ? withRegion(scene, id, { borders: movedBorder(bordersOf(region), which, to) }) : scene;
}

/** Even thirds again: the file does not speak of them. */
export const withEvenThirds = (scene: Scene, id: string): Scene => ({
  ...scene,
  regions: scene.regions.map((region) => {
    const { borders: _, ...rest } = region;
    return region.id === id ? rest : region;
  }),
});

/** A place along the axis → its place on the sheet, where every zone is as high as the others. */
export function onSheet(at: number, [first, second]: Borders): number {
  if (at <= first) return at / (3 * first);
  if (at <= second) return (1 + (at - first) / (second - first)) / 3;
  return (2 + (at - second) / (1 - second)) / 3;
}
