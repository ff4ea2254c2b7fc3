import { describe, expect, it } from 'vitest';
import type { PairTransform, Point } from '../src/engine/types';
import { AS_IT_IS, cssMatrix, inverted, layMatrix, layOf, transformOf, type Lay } from '../src/state/lay';
import { layInWords, raisedInWords } from '../src/views/pair';

const SIZE = { width: 1201, height: 801 };
const at = ([[a, b, c], [d, e, f]]: PairTransform, [x, y]: Point): Point => [a * x + b * y + c, d * x + e * y + f];
const near = (got: Point, want: Point) => got.forEach((v, i) => expect(v).toBeCloseTo(want[i]!, 6));

describe('laying one photo over the other', () => {
  it('moves, turns clockwise and scales about the middle', () => {
    near(at(layMatrix({ ...AS_IT_IS, x_px: 7, y_px: -3 }, SIZE), [600, 400]), [607, -3 + 400]);
    // A quarter turn clockwise brings what was above the middle to its right.
    near(at(layMatrix({ ...AS_IT_IS, turn_deg: 90 }, SIZE), [600, 300]), [700, 400]);
    near(at(layMatrix({ ...AS_IT_IS, scale: 1.5 }, SIZE), [700, 400]), [750, 400]);
  });

  it('is stored the other way round: plain pixel to cross-polarised pixel', () => {
    // Laid 10 px to the right, what the plain photo shows at 110 is at 100 in the other one.
    near(at(transformOf({ ...AS_IT_IS, x_px: 10 }, SIZE), [110, 50]), [100, 50]);
    expect(transformOf(AS_IT_IS, SIZE)[0][0]).toBe(1);
  });

  it.each<Lay>([
    AS_IT_IS,
    { x_px: 12.5, y_px: -40, turn_deg: 3.2, scale: 0.97 },
    { x_px: -800, y_px: 3, turn_deg: -170, scale: 2.5 },
  ])('comes back from what is stored: %o', (lay) => {
    const back = layOf(transformOf(lay, SIZE), SIZE);
    for (const key of Object.keys(lay) as (keyof Lay)[]) expect(back[key]).toBeCloseTo(lay[key], 8);
    const m = layMatrix(lay, SIZE);
    near(at(inverted(m), at(m, [17, 99])), [17, 99]);
  });

  it('puts the reduced copy where the view shows the plain photo', () => {
    const view = { k: 0.5, x: 20, y: 30 };
    // As it is: exactly where the plain photo's own canvas stands.
    const [a, b, c, d, tx, ty] = cssMatrix(layMatrix(AS_IT_IS, SIZE), view, 4).match(/-?[\d.e-]+/g)!.map(Number);
    [a, b, c, d, tx, ty].forEach((v, i) => expect(v).toBeCloseTo([2, 0, 0, 2, 20, 30][i]!, 9));
    // Turned: the middle of the photo stays where it was on the stage.
    const turned = cssMatrix(layMatrix({ ...AS_IT_IS, turn_deg: 30 }, SIZE), view, 1).match(/-?[\d.e-]+/g)!.map(Number) as [number, number, number, number, number, number];
    const [cx, cy] = [SIZE.width / 2, SIZE.height / 2];
    near([turned[0] * cx + turned[2] * cy + turned[4], turned[1] * cx + turned[3] * cy + turned[5]], [cx * 0.5 + 20, cy * 0.5 + 30]);
  });

  it('is told in words', () => {
    expect(layInWords({ x_px: 12, y_px: -3, turn_deg: -0.4, scale: 1.003 })).toBe('moved 12 px to the right and 3 px up, turned 0.4° anticlockwise, shown at 100.3 % of its size.');
    expect(layInWords({ x_px: -2, y_px: 5, turn_deg: 0.01, scale: 1 })).toBe('moved 2 px to the left and 5 px down, not turned, shown at 100.0 % of its size.');
    expect(raisedInWords({ glare_value: 1.44 } as never)).toBe('glare raised the value by about 1.4');
    expect(raisedInWords({ glare_value: 0.01 } as never)).toBe('glare did not raise the value');
  });
});
