import { describe, expect, it } from 'vitest';
import { along, linear } from '../src/charts/linear';

describe('a straight scale', () => {
  it('goes from end to end, backwards too, and stands in the middle where there is no span', () => {
    const x = linear([70, 80], [10, 110]);
    expect([x(70), x(75), x(80), x(90)]).toEqual([10, 60, 110, 210]);
    expect(linear([0, 2], [100, 0])(0.5)).toBe(75);
    expect(linear([3, 3], [0, 10])(3)).toBe(5);
  });
  it.each([
    [[70.4, 81.2], 2, [75, 80]],
    [[11, 21], 2, [15, 20]],
    [[-3, 3], 6, [-3, -2, -1, 0, 1, 2, 3]],
    [[0, 0.5], 5, [0, 0.1, 0.2, 0.30000000000000004, 0.4, 0.5]],
    [[1, 1], 3, []],
  ] as const)('marks round places: %j, about %i', ([low, high], count, marks) => {
    expect(linear([low, high], [0, 1]).ticks(count)).toEqual(marks);
  });
});

describe('along points', () => {
  const y = along([[0.2, 10], [0.5, 20], [0.8, 0]]);
  it('is straight between them and level beyond', () => {
    expect([y(0), y(0.2), y(0.35), y(0.5), y(0.65), y(0.8), y(1)].map((v) => Math.round(v * 1e6) / 1e6)).toEqual([10, 10, 15, 20, 10, 0, 0]);
  });
  it('is level with one point', () => {
    expect(along([[0.5, 3]])(0.9)).toBe(3);
  });
});
