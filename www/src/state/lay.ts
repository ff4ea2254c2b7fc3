/**
 * How the cross-polarised photo is laid over the plain one: moved, turned and scaled about the
 * middle of the plain photo. The engine states the way back, plain pixel → cross-polarised pixel.
 */
import type { PairTransform, Point } from '../engine/types';

export interface Lay {
  /** Moved to the right and down, in plain pixels. */
  x_px: number;
  y_px: number;
  /** Turned clockwise. */
  turn_deg: number;
  /** Size against its own. */
  scale: number;
}

export const AS_IT_IS: Lay = { x_px: 0, y_px: 0, turn_deg: 0, scale: 1 };

interface Size {
  width: number;
  height: number;
}

/** The centre of pixel (0, 0) is (0, 0). */
const middle = ({ width, height }: Size): Point => [(width - 1) / 2, (height - 1) / 2];

/** Cross-polarised pixel → plain pixel. */
export function layMatrix({ x_px, y_px, turn_deg, scale }: Lay, plain: Size): PairTransform {
  const [mx, my] = middle(plain);
  const turn = (turn_deg * Math.PI) / 180;
  const [c, s] = [scale * Math.cos(turn), scale * Math.sin(turn)];
  return [
    [c, -s, mx + x_px - c * mx + s * my],
    [s, c, my + y_px - s * mx - c * my],
  ];
}

export function inverted([[a, b, c], [d, e, f]]: PairTransform): PairTransform {
  const det = a * e - b * d;
  return [
    [e / det, -b / det, (b * f - e * c) / det],
    [-d / det, a / det, (d * c - a * f) / det],
  ];
}

/** Plain pixel → cross-polarised pixel, as the scene holds it. */
export const transformOf = (lay: Lay, plain: Size): PairTransform => inverted(layMatrix(lay, plain));

/** The similarity that a transform is. */
export function layOf(transform: PairTransform, plain: Size): Lay {
  const [[a, b, c], [d, e, f]] = inverted(transform);
  const [mx, my] = middle(plain);
  return {
    x_px: a * mx + b * my + c - mx,
    y_px: d * mx + e * my + f - my,
    turn_deg: (Math.atan2(d - b, a + e) * 180) / Math.PI,
    scale: Math.hypot(a + e, d - b) / 2,
  };
}

/**
 * The CSS matrix that puts a reduced copy of the cross-polarised photo on the stage: copy pixel →
 * cross-polarised pixel → plain pixel → stage pixel. Corners, not pixel centres, as CSS has it.
 */
export function cssMatrix(lay: PairTransform, view: { k: number; x: number; y: number }, photoPerCopy: number): string {
  const [[a, b, c], [d, e, f]] = lay;
  const { k, x, y } = view;
  const scale = k * photoPerCopy;
  // A corner lies half a pixel before the centre.
  const tx = k * (c + 0.5 - (a + b) * 0.5) + x;
  const ty = k * (f + 0.5 - (d + e) * 0.5) + y;
  return `matrix(${[a * scale, d * scale, b * scale, e * scale, tx, ty].join(', ')})`;
}
