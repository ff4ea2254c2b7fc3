import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { isLocked, lock, LockError, unlock } from '../src/state/case/locked';

const fixture = (name: string): URL => new URL(`../../fixtures/case/${name}`, import.meta.url);
const blob = (bytes: Uint8Array): Blob => new Blob([new Uint8Array(bytes)]);
const kept = (name: string): Blob => blob(readFileSync(fixture(name)));
const bytes = async (file: Blob): Promise<Buffer> => Buffer.from(await file.arrayBuffer());

const PASSPHRASE = 'vier schlichte Wörter hier';

const fault = (file: Blob, passphrase = PASSPHRASE): Promise<string> => unlock(file, passphrase).then(() => 'opened', (error) => (error instanceof LockError ? error.fault : String(error)));

it('opens what it locked, and what the command line locked', async () => {
  const plain = kept('version-1.tabside');
  const locked = await lock(plain, PASSPHRASE);
  if (process.env['TABSIDE_BLESS']) writeFileSync(fixture('locked_by_page.tabside'), await bytes(locked));
  expect([await isLocked(locked), await isLocked(plain)]).toEqual([true, false]);
  for (const file of [locked, kept('locked.tabside'), kept('locked_by_page.tabside')]) {
    expect(await bytes(await unlock(file, PASSPHRASE.replace('ö', 'o\u0308')))).toEqual(await bytes(plain));
  }
});

it('draws salt and nonce anew', async () => {
  const [a, b] = [await bytes(await lock(new Blob(['x']), 'p')), await bytes(await lock(new Blob(['x']), 'p'))];
  expect(a.subarray(16, 44)).not.toEqual(b.subarray(16, 44));
});

it('tells another passphrase from a changed file', async () => {
  const locked = await bytes(kept('locked.tabside'));
  const flipped = (at: number) => {
    const next = Buffer.from(locked);
    next[at]! ^= 1;
    return blob(next);
  };
  expect(await fault(blob(locked), 'vier schlichte Worte hier')).toBe('wrongPassphrase');
  for (const at of [11, 33, 60, locked.length >> 1, locked.length - 1]) expect(await fault(flipped(at))).toBe('tampered');
  for (const at of [15, 20, 50]) expect(await fault(flipped(at))).toBe('wrongPassphrase');
  for (const at of [8, 9]) expect(await fault(flipped(at))).toBe('lockedNewer');
  expect(await fault(flipped(12))).toBe('lockedDamaged');
  for (const length of [0, 12, 59]) expect(await fault(blob(locked.subarray(0, length)))).toBe('lockedDamaged');
  expect(await fault(blob(locked.subarray(0, 75)))).toBe('tampered');
});
