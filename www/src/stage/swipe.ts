/** A drag that begins beside the selected outline: across it, it cuts; any other way it pans. */
import type { Point } from '../engine/types';
import { cutAlong, cutLine } from '../state/cut';
import { scene } from '../state/desk';
import { noteBar } from '../state/remarks';
import { regionIdOf, shapeOf } from '../state/shapes';
import { adjusting, ofCard, outlinesHidden, selected, tool, view } from '../state/ui';
import { words } from '../words';
import { photoFromStage, stageFromPhoto } from './geometry';
import { aimsAt, cuts, mayCut, stroke } from './stroke';
import type { ZoomControls } from './zoom';

interface Swipe {
  path: Point[];
  meant: 'unknown' | 'cut' | 'pan';
}

let swipe: Swipe | null = null;

/** The zoom leaves a drag alone that may become a cut. */
export const swiping = (): boolean => swipe !== null;

/** The selected region's outline as it is on the stage. */
function outline(): Point[] | null {
  const shape = regionIdOf(selected.value) === null ? undefined : shapeOf(scene.value, selected.value);
  return shape ? shape.outline.map((p) => stageFromPhoto(view.value, p)) : null;
}

export function beginSwipe(at: Point): void {
  const free = !ofCard(tool.value) && !adjusting.value && !outlinesHidden.value && !cutLine.value;
  const line = free ? outline() : null;
  swipe = line && mayCut(line, at) ? { path: [at], meant: 'unknown' } : null;
}

export function moveSwipe(at: Point, moved: boolean, controls: ZoomControls | null): void {
  const line = outline();
  if (!swipe || !line) return;
  if (swipe.meant === 'unknown') {
    if (!moved) return;
    swipe.meant = aimsAt(line, swipe.path[0]!, at) ? 'cut' : 'pan';
  }
  const [x, y] = swipe.path.at(-1)!;
  swipe.path.push(at);
  if (swipe.meant === 'pan') controls?.pan(at[0] - x, at[1] - y);
  else stroke.value = [...swipe.path];
}

/** True when the drag was a swipe or a pan, and so no tap. */
export function endSwipe(at: Point): boolean {
  const line = outline();
  const done = swipe;
  dropSwipe();
  if (!done || done.meant === 'unknown' || !line) return false;
  if (done.meant === 'pan') return true;
  const path = [...done.path, at];
  if (cuts(line, path)) void cutAlong(path.map((p) => photoFromStage(view.value, p)));
  else if (selected.value) noteBar(selected.value, words.found.notCut);
  return true;
}

export function dropSwipe(): void {
  swipe = null;
  stroke.value = null;
}
