/** Zoom and pan of the stage: wheel, pinch, drag, double tap; and the same as calls for keys. */
import { select } from 'd3-selection';
import { zoom, zoomIdentity, type ZoomTransform } from 'd3-zoom';
import type { Rect } from '../engine/types';
import { ofCard } from '../state/tap';
import { stageSize, tool, view } from '../state/ui';
import { viewOn, type Size, type View } from './geometry';

const MAX_SCALE = 8;
const FIT_MARGIN = { side: 10, top: 10, bottom: 10 };
/** Room for the grips at the ends of the axis, and for the bar below, which wraps where it is narrow. */
const shapeMargin = () => ({ side: 30, top: 60, bottom: stageSize.value.width < 560 ? 190 : 130 });

export interface ZoomControls {
  fit(): void;
  actual(): void;
  by(factor: number): void;
  pan(dx: number, dy: number): void;
  show(rect: Rect): void;
  /** Another photo: its size, and the whole of it in view. */
  bound(photo: Size): void;
  /** Another stage size: a fitted photo stays fitted, any other view keeps its middle. */
  resize(size: Size): void;
  stop(): void;
}

/** While the card is looked for, a drag with one finger or the mouse draws a box instead. */
const drawsBox = () => ofCard(tool.value);

function accepts(event: Event): boolean {
  if (event.target instanceof Element && event.target.closest('[data-grab]')) return false;
  if (event.type === 'dblclick') return tool.value === 'look';
  if (event.type === 'wheel') return true;
  if ('touches' in event) return !drawsBox() || (event as TouchEvent).touches.length > 1;
  const { button } = event as MouseEvent;
  return button === 1 || (button === 0 && !drawsBox());
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
  const stage = select(element).call(behaviour);
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
