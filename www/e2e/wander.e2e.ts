import { expect, it } from 'vitest';
import { faults, tableOf } from '../scripts/wander/table.mjs';
import { walk } from '../scripts/wander/walk.mjs';
import { address } from './browser';

// `npm run wander` does it for an hour, and measures growth; so short a walk says too little of that.
it('a user at random, for a minute: nothing breaks, nothing is lost', { timeout: 240_000 }, async () => {
  const result = await walk({ url: address(), seed: 7, minutes: 1 });
  console.log(tableOf(result));
  expect(result.steps).toBeGreaterThan(50);
  expect(faults(result)).toEqual([]);
});
