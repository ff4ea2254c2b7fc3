/** Cutting the selected outline: by a swipe, or along a line whose ends can be moved. */
import { computed, signal } from '@preact/signals';
import { desk } from '../engine/instance';
import type { Point } from '../engine/types';
import { words } from '../words';
import { changeScene, photo, scene } from './desk';
import { noteBar } from './remarks';
import { withPieces } from './pieces';
import { report } from './problems';
import { boundsOf, middleOf, regionById, regionIdOf, regionKey } from './shapes';
import { whileBusy } from './status';
import { selected } from './ui';

export type CutLine = readonly [Point, Point];

const drawn = signal<{ id: string; line: CutLine } | null>(null);

/** The line along which the selected outline will be cut, in photo pixels. */
export const cutLine = computed(() => (drawn.value && regionKey(drawn.value.id) === selected.value ? drawn.value.line : null));

/** How far the line reaches beyond the outline. */
const BEYOND = 1.2;

/** Across the long axis through the middle, or along it. */
export function startCut(across = true): void {
  const region = regionById(scene.value, regionIdOf(selected.value));
  if (!region) return;
  const { left, top, right, bottom } = boundsOf(region.outline);
  const [x, y] = middleOf(region.outline);
  const { cervical: c = [x, top], incisal: i = [x, bottom] } = region;
  const length = Math.hypot(i[0] - c[0], i[1] - c[1]) || 1;
  const [ux, uy] = [(i[0] - c[0]) / length, (i[1] - c[1]) / length];
  const [dx, dy] = across ? [-uy, ux] : [ux, uy];
  // Half of the bounding box as seen along the line.
  const half = (BEYOND * (Math.abs(dx) * (right - left) + Math.abs(dy) * (bottom - top))) / 2;
  drawn.value = { id: region.id, line: [[x - dx * half, y - dy * half], [x + dx * half, y + dy * half]] };
}

export function moveCutEnd(end: 0 | 1, to: Point): void {
  const now = drawn.value;
  if (now) drawn.value = { ...now, line: end === 0 ? [to, now.line[1]] : [now.line[0], to] };
}

export const endCut = (): void => {
  drawn.value = null;
};

export async function cutAlong(stroke: readonly Point[]): Promise<void> {
  const open = photo.value;
  const id = regionIdOf(selected.value);
  const before = regionById(scene.value, id);
  if (!open || id === null || !before) return;
  const t = words.found;
  try {
    const pieces = await whileBusy(words.busy.cutting, (signal) => desk.cutOutline(open, before.outline, [...stroke], { signal }));
    // Not when it was changed meanwhile.
    if (!pieces || regionById(scene.value, id) !== before) return;
    if (pieces.length === 0) return noteBar(regionKey(id), t.notCut);
    changeScene(words.edits.cut, (s) => withPieces(s, id, pieces).scene);
    endCut();
    noteBar(regionKey(id), pieces.length > 1 ? t.cutInTwo : t.trimmed);
  } catch (error) {
    report(words.errors.cutFailed, error, words.errors.outlineByHand);
  }
}
