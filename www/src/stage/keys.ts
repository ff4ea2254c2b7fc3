/** The stage by keyboard: zoom, pan, and a cross that taps. */
import { signal } from '@preact/signals';
import type { Point } from '../engine/types';
import { tapPhoto } from '../state/tap';
import { adjust, lay, putLay } from '../state/pair';
import { removeShape } from '../state/remove';
import { adjusting, select, selected, stageSize, tool, view } from '../state/ui';
import { photoFromStage } from './geometry';
import type { ZoomControls } from './zoom';

const PAN_PX = 60;
const CROSS_PX = 8;

/** Where the cross is, in stage pixels; shown while a marking tool is held and the stage has focus. */
export const cross = signal<Point | null>(null);

export const arrowOf = (key: string): Point | null =>
  ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] } as Record<string, Point>)[key] ?? null;

export function centreCross(): void {
  cross.value ??= [stageSize.value.width / 2, stageSize.value.height / 2];
}

export function stageKey(event: KeyboardEvent, controls: ZoomControls | null): void {
  if (event.ctrlKey || event.metaKey || event.altKey || event.target !== event.currentTarget) return;
  if (handled(event, controls)) event.preventDefault();
}

function handled({ key, shiftKey }: KeyboardEvent, controls: ZoomControls | null): boolean {
  const arrow = arrowOf(key);
  const marking = tool.value !== 'look';
  if (adjusting.value) return layKey(key, shiftKey);
  if (arrow && marking) moveCross(arrow, shiftKey ? 5 * CROSS_PX : CROSS_PX);
  else if (arrow) controls?.pan(-arrow[0] * PAN_PX, -arrow[1] * PAN_PX);
  else if (key === '+' || key === '=') controls?.by(1.25);
  else if (key === '-') controls?.by(1 / 1.25);
  else if (key === '0') controls?.fit();
  else if (key === '1') controls?.actual();
  else if (key === 'Enter' && marking && cross.value) void tapPhoto(photoFromStage(view.value, cross.value));
  else if ((key === 'Delete' || key === 'Backspace') && selected.value) removeShape(selected.value);
  else if (key === 'Escape') {
    tool.value = 'look';
    select(null);
  } else return false;
  return true;
}

/** While the cross-polarised photo is laid over: arrows move it, Escape ends. */
function layKey(key: string, shift: boolean): boolean {
  const arrow = arrowOf(key);
  const by = shift ? 10 : 1;
  if (arrow) putLay({ x_px: lay.value.x_px + arrow[0] * by, y_px: lay.value.y_px + arrow[1] * by });
  else if (key === 'Escape') adjust(false);
  else return false;
  return true;
}

function moveCross([dx, dy]: Point, by: number): void {
  centreCross();
  const [x, y] = cross.value!;
  const { width, height } = stageSize.value;
  cross.value = [Math.min(Math.max(x + dx * by, 0), width), Math.min(Math.max(y + dy * by, 0), height)];
}
