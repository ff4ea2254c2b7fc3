/** Photo pixels ↔ stage pixels. */
import type { Patch, Point, Rect } from '../engine/types';

export interface View {
  k: number;
  x: number;
  y: number;
}

export interface Size {
  width: number;
  height: number;
}

/** The centre of photo pixel (0, 0) lies half a pixel inside the picture's corner. */
export const stageFromPhoto = ({ k, x, y }: View, [px, py]: Point): Point => [(px + 0.5) * k + x, (py + 0.5) * k + y];

export const photoFromStage = ({ k, x, y }: View, [sx, sy]: Point): Point => [(sx - x) / k - 0.5, (sy - y) / k - 0.5];

/** A patch of the engine over the photo: what to do to its canvas. */
export const patchTransform = ({ k, x, y }: View, { place: [left, top, wide, high], width, height }: Pick<Patch, 'place' | 'width' | 'height'>): string =>
  `translate(${x + left * k}px, ${y + top * k}px) scale(${(k * wide) / width}, ${(k * high) / height})`;

export const pathOf = (view: View, outline: readonly Point[]): string => {
  const points = outline.map((p) => stageFromPhoto(view, p));
  return points.map(([x, y], i) => `${i ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`).join('') + 'Z';
};

export interface Margin {
  side: number;
  top: number;
  bottom: number;
}

/** The largest view that shows `rect` of the photo whole, with margins in stage pixels. */
export function viewOn(rect: Rect, stage: Size, { side, top, bottom }: Margin, maxK = Infinity): View {
  const height = Math.max(stage.height - top - bottom, stage.height * 0.3);
  const k = Math.min((stage.width - 2 * side) / Math.max(rect.width, 1), height / Math.max(rect.height, 1), maxK);
  const scale = Math.max(k, 1e-3);
  return {
    k: scale,
    x: stage.width / 2 - (rect.x + rect.width / 2) * scale,
    y: top + (stage.height - top - bottom) / 2 - (rect.y + rect.height / 2) * scale,
  };
}
