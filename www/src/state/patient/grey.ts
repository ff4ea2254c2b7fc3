/** A picture's brightness alone, for the eye only: sRGB (IEC 61966-2-1) → linear luminance → the grey of that luminance. */
import type { Preview } from '../../engine/types';

/** Of linear sRGB, D65. */
const LUMINANCE = [0.2126, 0.7152, 0.0722] as const;

const LINEAR = Float64Array.from({ length: 256 }, (_, code) => {
  const v = code / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});
const code = (linear: number): number => Math.round(255 * (linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055));

export function greyOf({ width, height, rgba }: Preview): Preview {
  const out = new Uint8Array(rgba.length);
  for (let i = 0; i < rgba.length; i += 4) {
    const luminance = LUMINANCE.reduce((sum, share, c) => sum + share * LINEAR[rgba[i + c]!]!, 0);
    out.fill(code(luminance), i, i + 3);
    out[i + 3] = rgba[i + 3]!;
  }
  return { width, height, rgba: out };
}
