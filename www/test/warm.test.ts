import { beforeEach, expect, it, vi } from 'vitest';

vi.mock('../src/engine/instance', () => import('./fake_desk'));
const { desk, made } = await import('./fake_desk');
const { warm } = await import('../src/state/warm');
const { doc } = await import('../src/state/desk');

const jpeg = new Blob([new Uint8Array([0xff, 0xd8])]);
const called = () => made.flatMap((w) => w.received.map((r) => r.call));

beforeEach(() => {
  vi.stubGlobal('OffscreenCanvas', class {
    getContext = () => new Proxy({}, { get: () => () => {}, set: () => true });
    convertToBlob = async () => jpeg;
  });
});

it('runs what a photo runs and leaves nothing; never again once something was asked', async () => {
  const before = doc.value;
  await warm();
  expect(called()).toEqual(['open', 'preview', 'find', 'read', 'straightened', 'close']);
  expect([doc.value, desk.front.quietMs]).toEqual([before, Infinity]);
  // Somebody asks while it is at the search: the rest is left out.
  made[0]!.received.length = 0;
  made[0]!.heldCall = 'find';
  const warming = warm();
  await vi.waitFor(() => expect(called()).toContain('find'));
  const asked = desk.open(jpeg, 'a.jpg', { tooLarge: '' });
  made[0]!.heldCall = '';
  made[0]!.postMessage(made[0]!.received.at(-1)!);
  const photo = await asked;
  await warming;
  // The search was sent twice: by the client, and when it was let go.
  expect(called().sort()).toEqual(['close', 'find', 'find', 'open', 'open', 'preview']);
  await warm();
  expect(called()).toHaveLength(6);
  desk.close(photo);
});

it('is left out where a browser cannot draw', async () => {
  vi.stubGlobal('OffscreenCanvas', undefined);
  await expect(warm()).resolves.toBeUndefined();
});
