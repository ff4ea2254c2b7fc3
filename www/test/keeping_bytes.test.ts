import 'fake-indexeddb/auto';
import { expect, it, vi } from 'vitest';

vi.mock('../src/engine/instance', () => import('./fake_desk'));
vi.mock('../src/engine/case_instance', () => ({ caseDesk: { scrub: async (file: Blob) => file, begin: () => {} } }));
const none = { getItem: () => null, setItem: () => {}, removeItem: () => {} };
vi.stubGlobal('localStorage', none);
vi.stubGlobal('sessionStorage', none);

const { desk } = await import('../src/engine/instance');
const { change, doc } = await import('../src/state/desk');
const { problem } = await import('../src/state/status');
const { current } = await import('../src/state/case/at_hand');
const { newCase, openKept } = await import('../src/state/case/current');
const { touch } = await import('../src/state/case/due');
const { flush } = await import('../src/state/case/keeper');
const { safe } = await import('../src/state/case/safe');
const { within } = await import('../src/state/case/store');

it('writes bytes where files are refused, as private windows of some browsers do', async () => {
  const put = IDBObjectStore.prototype.put;
  vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, value: object) {
    if (Object.values(value).some((v) => v instanceof Blob)) throw new DOMException('no', 'DataCloneError');
    return put.call(this, value);
  });
  change('open', { photo: await desk.open(new Blob([new Uint8Array([0xff, 1, 2, 3])]), 'a.jpg', { tooLarge: '' }) });
  touch();
  expect(await flush()).toBe(true);
  const [kept] = await within('readonly', (tx) => tx.objectStore('photos').getAll());
  expect([kept!.file instanceof Blob, problem.value, safe.value?.without.size]).toEqual([false, null, 0]);
  const { id } = current.value!;
  await newCase();
  expect(doc.value.photo).toBeNull();
  await openKept(id);
  expect(await desk.fileOf(doc.value.photo!)!.arrayBuffer()).toEqual(new Uint8Array([0xff, 1, 2, 3]).buffer);
});
