/**
 * L*a*b* (D65, 2°) → a colour of the screen (sRGB, IEC 61966-2-1), for the eye only: CSS's own lab()
 * stands under D50. Clipped to what the screen can show.
 */
import type { Lab } from '../engine/types';

const WHITE_D65 = [0.95047, 1, 1.08883] as const;
const LINEAR_SRGB_FROM_XYZ = [
  [3.2404542, -1.5371385, -0.4985314],
  [-0.969266, 1.8760108, 0.041556],
  [0.0556434, -0.2040259, 1.0572252],
] as const;

const fromLab = (t: number): number => (t > 6 / 29 ? t ** 3 : (108 / 841) * (t - 4 / 29));
const code = (linear: number): number => {
  const v = Math.min(Math.max(linear, 0), 1);
  return Math.round(255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055));
};

export function srgbOf([l, a, b]: Lab): [number, number, number] {
  const y = (l + 16) / 116;
  const xyz = [y + a / 500, y, y - b / 200].map((t, i) => WHITE_D65[i]! * fromLab(t));
  return LINEAR_SRGB_FROM_XYZ.map((row) => code(row.reduce((sum, m, i) => sum + m * xyz[i]!, 0))) as [number, number, number];
}

export const cssOf = (lab: Lab): string => `rgb(${srgbOf(lab).join(' ')})`;
