/** Names are written into the printed photo in pixels of its canvas: that must not shrink with the photo. */
import { expect, it, vi } from 'vitest';

vi.mock('../src/engine/instance', () => import('./fake_desk'));
const { printedSize } = await import('../src/views/lab/printed_photo');

it.each([
  ['a usual photo', [1732, 1155], [900, 600]],
  ['held upright', [1155, 1732], [900, 1350]],
  ['a small one', [48, 32], [900, 600]],
  ['a strip', [10, 100_000], [1, 1350]],
])('gives %s the canvas it needs', (_, [width, height], [wide, high]) => {
  expect(printedSize({ width: width!, height: height! })).toEqual({ width: wide, height: high });
});
