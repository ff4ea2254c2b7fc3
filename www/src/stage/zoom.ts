/** Zoom and pan of the stage: wheel, pinch, drag; and the same as calls for keys and taps (`taps`). */
import { select } from 'd3-selection';
import { zoom, zoomIdentity, type ZoomTransform } from 'd3-zoom';
import type { Point, Rect } from '../engine/types';
import { ofCard, stageSize, tool, view } from '../state/ui';
import { swiping } from './swipe';
import { stageFromPhoto, viewOn, type Size, type View } from './geometry';

const MAX_SCALE = 8;
/** By a double tap, from the whole photo in view. */
const NEARER = 2.5;
const FIT_MARGIN = { side: 10, top: 10, bottom: 10 };
/** Room for the grips at the ends of the axis and of the borders, and for the bar below, which wraps where it is narrow. */
const shapeMargin = () => ({ side: 64, top: 70, bottom: stageSize.value.width > 640 ? 140 : stageSize.value.width > 440 ? 225 : 180 });

export interface ZoomControls {
  fit(): void;
  actual(): void;
  by(factor: number): void;
  /** The whole photo: nearer at that place of it; else the whole photo again. */
  nearer(place: Point): void;
  pan(dx: number, dy: number): void;
  show(rect: Rect): void;
  /** Another photo: its size, and the whole of it in view. */
  bound(photo: Size): void;
  /** Another stage size: a fitted photo stays fitted, any other view keeps its middle. */
  resize(size: Size): void;
  stop(): void;
}

/** A drag with one finger or the mouse may draw a box around the card, or cut an outline. */
const draws = () => ofCard(tool.value) || swiping();

function accepts(event: Event): boolean {
  if (event.target instanceof Element && event.target.closest('[data-grab]')) return false;
  if (event.type === 'wheel') return true;
  if ('touches' in event) return !draws() || (event as TouchEvent).touches.length > 1;
  const { button } = event as MouseEvent;
  return button === 1 || (button === 0 && !draws());
}

export function attachZoom(element: HTMLElement): ZoomControls {
  let photo: Size = { width: 1, height: 1 };
  let fitted = true;
  const whole = (): Rect => ({ x: 0, y: 0, ...photo });
  const behaviour = zoom<HTMLElement, unknown>()
    .filter(accepts)
    .duration(0)
    .on('zoom', ({ transform, sourceEvent }: { transform: ZoomTransform; sourceEvent: unknown }) => {
      if (sourceEvent) fitted = false;
      view.value = { k: transform.k, x: transform.x, y: transform.y };
    });
  const stage = select(element).call(behaviour).on('dblclick.zoom', null);
  const go = ({ k, x, y }: View) => behaviour.transform(stage, zoomIdentity.translate(x, y).scale(k));
  const limit = () => {
    const { k } = viewOn(whole(), stageSize.value, FIT_MARGIN);
    behaviour.scaleExtent([Math.min(k * 0.7, 1), Math.max(MAX_SCALE, k)]);
    behaviour.translateExtent([
      [-photo.width * 0.5, -photo.height * 0.5],
      [photo.width * 1.5, photo.height * 1.5],
    ]);
  };
  const fit = () => {
    if (stageSize.value.width > 0) go(viewOn(whole(), stageSize.value, FIT_MARGIN));
    fitted = true;
  };
  const unfitted = (act: () => void) => {
    act();
    fitted = false;
  };
  return {
    fit,
    actual: () => unfitted(() => behaviour.scaleTo(stage, 1)),
    by: (factor) => unfitted(() => behaviour.scaleBy(stage, factor)),
    nearer: (place) => (fitted ? unfitted(() => behaviour.scaleBy(stage, NEARER, stageFromPhoto(view.value, place))) : fit()),
    pan: (dx, dy) => unfitted(() => behaviour.translateBy(stage, dx / view.value.k, dy / view.value.k)),
    show: (rect) => unfitted(() => go(viewOn(rect, stageSize.value, shapeMargin(), MAX_SCALE))),
    bound: (size) => {
      photo = size;
      limit();
      fit();
    },
    resize: (size) => {
      const old = stageSize.value;
      if (old.width === size.width && old.height === size.height) return;
      stageSize.value = size;
      limit();
      const { k, x, y } = view.value;
      if (fitted) fit();
      else go({ k, x: x + (size.width - old.width) / 2, y: y + (size.height - old.height) / 2 });
    },
    stop: () => stage.on('.zoom', null),
  };
}
