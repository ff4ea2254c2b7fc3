/** Tells taps, dragged boxes and swipes that cut from pans and pinches. */
import { signal } from '@preact/signals';
import type { Point, Rect } from '../engine/types';
import { boxPhoto, onlySelects, tapPhoto } from '../state/tap';
import { ofCard, tool, view } from '../state/ui';
import { zoomControls } from './controls';
import { photoFromStage } from './geometry';
import { TAP_SLOP_PX } from './handle';
import { beginSwipe, dropSwipe, endSwipe, moveSwipe } from './swipe';

const TAP_MS = 700;
/** Two taps quicker than this, and nearer to each other, are a double tap. */
const DOUBLE_TAP_MS = 350;
const DOUBLE_TAP_PX = 32;

let last: { at: Point; place: Point; time: number; waiting?: ReturnType<typeof setTimeout> } | null = null;

/**
 * A tap at a place of the stage. With no tool in hand a double tap goes nearer or back: what would
 * change outlines waits until it is clear that no second tap follows; what only selects does not.
 */
export function tapAt(at: Point): void {
  const place = photoFromStage(view.value, at);
  if (tool.value !== 'look') return void tapPhoto(place);
  const [now, before] = [performance.now(), last];
  if (before && now - before.time < DOUBLE_TAP_MS && Math.hypot(at[0] - before.at[0], at[1] - before.at[1]) < DOUBLE_TAP_PX) {
    clearTimeout(before.waiting);
    last = null;
    return zoomControls()?.nearer(before.place);
  }
  last = { at, place, time: now };
  if (onlySelects(place)) void tapPhoto(place);
  else last.waiting = setTimeout(() => tool.value === 'look' && void tapPhoto(place, now), DOUBLE_TAP_MS);
}

/** The box being dragged, in stage pixels. */
export const draggedBox = signal<Rect | null>(null);

const boxOf = ([x0, y0]: Point, [x1, y1]: Point): Rect => ({
  x: Math.min(x0, x1),
  y: Math.min(y0, y1),
  width: Math.abs(x1 - x0),
  height: Math.abs(y1 - y0),
});

export function attachTaps(element: HTMLElement): () => void {
  let start: { at: Point; time: number; id: number } | null = null;
  const down = new Set<number>();
  const place = (event: PointerEvent): Point => {
    const { left, top } = element.getBoundingClientRect();
    return [event.clientX - left, event.clientY - top];
  };
  const forget = () => {
    start = null;
    draggedBox.value = null;
    dropSwipe();
  };

  const onDown = (event: PointerEvent) => {
    down.add(event.pointerId);
    const grabbed = event.target instanceof Element && event.target.closest('[data-grab]');
    if (down.size > 1 || grabbed || event.button !== 0) return forget();
    start = { at: place(event), time: event.timeStamp, id: event.pointerId };
    // Before the zoom is told of the same press: it leaves such a drag alone.
    beginSwipe(start.at);
  };
  const onMove = (event: PointerEvent) => {
    if (!start || event.pointerId !== start.id) return;
    const at = place(event);
    const box = boxOf(start.at, at);
    const moved = Math.max(box.width, box.height) > TAP_SLOP_PX;
    if (ofCard(tool.value) && moved) draggedBox.value = box;
    else moveSwipe(at, moved, zoomControls());
  };
  const onUp = (event: PointerEvent) => {
    down.delete(event.pointerId);
    if (!start || event.pointerId !== start.id) return;
    const [began, end, box] = [start, place(event), draggedBox.value];
    const swiped = endSwipe(end);
    forget();
    if (swiped) return;
    if (box) return void boxPhoto(boxOf(photoFromStage(view.value, began.at), photoFromStage(view.value, end)));
    const moved = Math.hypot(end[0] - began.at[0], end[1] - began.at[1]);
    const held = event.timeStamp - began.time;
    if (moved <= TAP_SLOP_PX && held <= TAP_MS) tapAt(began.at);
  };
  const onCancel = (event: PointerEvent) => {
    down.delete(event.pointerId);
    forget();
  };

  /** What is done in between by a key, or elsewhere, makes two taps of it. */
  const between = (event: Event) => {
    if (event.type === 'keydown' || !element.contains(event.target as Node)) last = null;
  };

  window.addEventListener('keydown', between, true);
  window.addEventListener('pointerdown', between, true);
  element.addEventListener('pointerdown', onDown);
  window.addEventListener('pointermove', onMove);
  window.addEventListener('pointerup', onUp);
  window.addEventListener('pointercancel', onCancel);
  return () => {
    window.removeEventListener('keydown', between, true);
    window.removeEventListener('pointerdown', between, true);
    element.removeEventListener('pointerdown', onDown);
    window.removeEventListener('pointermove', onMove);
    window.removeEventListener('pointerup', onUp);
    window.removeEventListener('pointercancel', onCancel);
  };
}
