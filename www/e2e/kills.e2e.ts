import { expect, it } from 'vitest';
import { runKills } from '../scripts/kills.mjs';
import { address } from './browser';

// `npm run kills` does it fifty times.
it('loses at most the last second, and never the case, when the browser is killed', { timeout: 240_000 }, async () => {
  const kills = await runKills({ url: address(), kills: 5 });
  expect(kills.flatMap(({ problems }) => problems)).toEqual([]);
  expect(kills.map(({ compared }) => compared >= 3)).toEqual([true, true, true, true, true]);
  expect(Math.max(...kills.map(({ lostMs }) => lostMs))).toBeLessThanOrEqual(1000);
});
