import { describe, expect, it } from 'vitest';
import { Desk } from '../src/engine/desk';
import type { ColourPair } from '../src/engine/types';
import { FakeWorker } from './fake_worker';

describe('plain differences', () => {
  it('are sent as eight numbers a pair, and what is not known as no number', async () => {
    const worker = new FakeWorker();
    const pairs: ColourPair[] = [
      { from: { lab: [75, 1, 18], doubt: 3 }, to: { lab: [77, 2, 15], doubt: 4 } },
      { from: { lab: [70, 0, 10] }, to: { lab: [60, 0, 10], doubt: 1 } },
    ];
    const found = await new Desk(() => worker).differences(pairs);
    expect(worker.received[0]!.args).toEqual([Float64Array.of(75, 1, 18, 3, 77, 2, 15, 4, 70, 0, 10, NaN, 60, 0, 10, 1)]);
    expect(found.map((d) => [d.words, d.doubt])).toEqual([['lighter', 5], ['darker', undefined]]);
  });
});
