import { expect, it } from 'vitest';
import { fingerprint } from '../src/engine/fingerprint';

const bytes = (length: number, at = -1) => new Blob([Uint8Array.from({ length }, (_, i) => (i === at ? 1 : i % 251))]);

it('is the same for the same bytes, and another for others of the same length', async () => {
  const long = 300_000;
  expect(await fingerprint(bytes(long))).toBe(await fingerprint(bytes(long)));
  const all = await Promise.all([bytes(long), bytes(long, 0), bytes(long, long - 1), bytes(long + 1), bytes(0)].map(fingerprint));
  expect(new Set(all).size).toBe(5);
});
