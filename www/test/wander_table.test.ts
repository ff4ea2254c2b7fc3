/** What a walk calls growth. */
import { expect, it } from 'vitest';
import { faults, tableOf } from '../scripts/wander/table.mjs';

const result = (own: [number, number], programs: number[]) =>
  ({ seed: 1, steps: 9, minutes: 1, problems: [], counts: {}, missed: 0, cases: { count: 0, most: 0, removed: 0, opened: 0 }, slowest: 1, memory: { rests: own.map((bytes, i) => ({ own: bytes, code: 1 + 2 * i, pictures: 1 + 2 * i, driver: 1 + 2 * i })), programs } }) as unknown as Parameters<typeof faults>[0];

it('is more than a tenth, at rest or of the most that programs held in each half', () => {
  const steady = [50, 100, 60, 70, 90, 50, 99, 100];
  expect(faults(result([10, 10.9], steady))).toEqual([]);
  expect(faults(result([10, 11.1], steady))).toEqual([expect.stringContaining('objects grew')]);
  expect(faults(result([10, 10], [50, 60, 60, 70, 90, 50, 99, 100]))).toEqual([expect.stringContaining('programs grew')]);
  // Too few looks tell nothing.
  expect(faults(result([10, 10], [50, 60, 100]))).toEqual([]);
  expect(tableOf(result([10, 10], steady.map((v) => v * 1e6)))).toContain('100.0 MB → 100.0 MB (+0.0 %)');
});
