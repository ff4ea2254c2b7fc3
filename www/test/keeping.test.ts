import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { OpenPhoto } from '../src/engine/desk';
import { FakeWorker } from './fake_worker';

vi.mock('../src/engine/instance', () => import('./fake_desk'));
const scrub = vi.fn(async (file: Blob) => file);
vi.mock('../src/engine/case_instance', () => ({ caseDesk: { scrub: (file: Blob) => scrub(file), begin: () => {} } }));

const texts = new Map<string, string>();
const storage = { getItem: (k: string) => texts.get(k) ?? null, setItem: (k: string, v: string) => void texts.set(k, v), removeItem: (k: string) => void texts.delete(k) };
vi.stubGlobal('localStorage', storage);
vi.stubGlobal('sessionStorage', storage);
vi.stubGlobal('window', { addEventListener: () => {}, removeEventListener: () => {} });
vi.stubGlobal('document', { addEventListener: () => {}, removeEventListener: () => {}, visibilityState: 'visible' });

const { desk } = await import('../src/engine/instance');
const { change, doc, lookAt, startWith, undoLabel, undoStep } = await import('../src/state/desk');
const { EMPTY_DOC } = await import('../src/state/doc');
const { EMPTY_STAINS } = await import('../src/state/stains/stains_doc');
const { openPhotos, withLaid } = await import('../src/state/tray/laid');
const { problem, status } = await import('../src/state/status');
const { current } = await import('../src/state/case/at_hand');
const { newCase, openKept, putCase, readCase, remove, rename } = await import('../src/state/case/current');
const { takeInHand } = await import('../src/state/case/hand');
const { flush, startKeeper } = await import('../src/state/case/keeper');
const { fromKept, keptFrom, toKept } = await import('../src/state/case/kept_doc');
const { bringBack, cases, duplicate, kept, tidy } = await import('../src/state/case/list');
const { safe } = await import('../src/state/case/safe');
const { closeDatabase, KeepError, reopenDatabase, within } = await import('../src/state/case/store');
const { keptStains, startKeeping, takeStains, workKept } = await import('../src/state/stains/kept');
await import('../src/words/later');

const square = [[0, 0], [10, 0], [10, 10], [0, 10]] as [number, number][];
const SCENE = { card: { outline: square }, regions: [{ id: 'a', kind: 'tooth' as const, name: '11', outline: square }] };
const KNOWN = { isHere: () => true, reading: () => undefined, isSettled: () => false };

let made = 0;
const open = async (name: string): Promise<OpenPhoto> => desk.open(new Blob([new Uint8Array([0xff, ...new TextEncoder().encode(`${name}${made++}`)])], { type: 'image/jpeg' }), name, { tooLarge: '' });

const all = <T>(store: 'cases' | 'docs' | 'photos' | 'desk') => within('readonly', (tx) => tx.objectStore(store).getAll()) as Promise<T[]>;
const heads = () => all<import('../src/state/case/store').Head>('cases');
const docs = () => all<{ id: string; doc: import('../src/state/case/kept_doc').KeptDoc }>('docs');

let stop = () => {};

beforeEach(async () => {
  stop();
  vi.restoreAllMocks();
  await flush();
  texts.clear();
  takeInHand(null, { revision: 0, release: null, doc: null });
  startWith({ ...EMPTY_DOC, stains: EMPTY_STAINS });
  problem.value = null;
  await reopenDatabase();
  await within('readwrite', async (tx) => {
    await Promise.all((['cases', 'docs', 'photos', 'desk'] as const).map((name) => tx.objectStore(name).clear()));
  });
  stop = startKeeper(0);
});

describe('a document as plain data', () => {
  it('comes back as it was, without anything being decoded', async () => {
    const [a, b, polarised] = [await open('a.jpg'), await open('b.jpg'), await open('x.jpg')];
    change('open', { photo: a, scene: SCENE, target: 'a', proposal: { restoration: 'a', cardSteps: [square] }, notes: [{ id: 'note-1', at: [3, 4], text: 'spot' }], polarised });
    change('lay', withLaid(doc.value, b));
    const opens = () => vi.mocked(FakeWorker.prototype.postMessage).mock.calls.filter(([{ call }]) => call === 'open').length;
    vi.spyOn(FakeWorker.prototype, 'postMessage');
    const stored = structuredClone(toKept(doc.value, KNOWN));
    const { doc: back, missing } = fromKept(keptFrom(stored), EMPTY_STAINS, () => new Blob(['x']));
    expect([opens(), missing]).toEqual([0, []]);
    const plain = (d: typeof back) => openPhotos(d).map(({ photo, polarised, ...made }) => ({ ...made, photo: { ...photo, handle: 0 }, polarised: polarised && { ...polarised, handle: 0 } }));
    expect(plain(back)).toEqual(plain(doc.value));
    expect([back.photo?.name, back.tray.map((l) => l.photo.name)]).toEqual(['a.jpg', ['b.jpg']]);
  });

  it('stands without a picture that is not there, and says which', async () => {
    const a = await open('a.jpg');
    change('open', { photo: a, scene: SCENE });
    const { doc: back, missing } = fromKept(keptFrom(toKept(doc.value, KNOWN)), EMPTY_STAINS, () => undefined);
    expect([missing, back.photo?.kept?.scale, desk.fileOf(back.photo!), back.scene]).toEqual([['a.jpg'], 0, null, SCENE]);
  });

  it('is refused when it is damaged, whatever is', async () => {
    change('open', { photo: await open('a.jpg'), scene: SCENE, notes: [{ id: 'n', at: [1, 2], text: 't' }] });
    const sound = () => structuredClone(toKept(doc.value, KNOWN)) as any;
    expect(() => keptFrom(sound())).not.toThrow();
    const damage: ((d: any) => unknown)[] = [
      (d) => (d.form = 2), (d) => (d.photos = {}), (d) => (d.shown = 'x'), (d) => delete d.stains, (d) => (d.photos[0] = null), (d) => delete d.photos[0].name, (d) => (d.photos[0].print = 7),
      (d) => (d.photos[0].info.width = NaN), (d) => (d.photos[0].scene.regions[0].outline = [[0, 0]]), (d) => (d.photos[0].scene.card.outline[0] = ['a', 'b']), (d) => (d.photos[0].notes[0].at = null),
      (d) => (d.photos[0].notes[0].text = {}), (d) => (d.photos[0].polarised = 'x'), (d) => (d.photos[0].checks = 'x'), (d) => (d.stains.work = { zones: [] }), (d) => (d.photos = Array(500).fill(d.photos[0])),
    ];
    const passed = damage.filter((harm) => {
      const d = sound();
      harm(d);
      try {
        return keptFrom(d);
      } catch {
        return false;
      }
    });
    expect(passed.map(String)).toEqual([]);
    expect(() => keptFrom(null)).toThrow();
  });
});

describe('the keeper', () => {
  it('keeps every change within a second, photos once, and nothing for an empty desk', async () => {
    await vi.waitFor(() => expect(safe.value).toBeNull());
    const puts = vi.spyOn(IDBObjectStore.prototype, 'put');
    change('open', { photo: await open('a.jpg'), scene: SCENE });
    const from = performance.now();
    await vi.waitFor(async () => expect(await docs()).toHaveLength(1), { interval: 20 });
    expect(performance.now() - from).toBeLessThan(1000);
    for (let i = 0; i < 30; i++) {
      change('note', { notes: [{ id: 'n', at: [1, 1], text: `${i}` }] });
      await new Promise((go) => setTimeout(go, 40));
    }
    // It was written while changes kept coming, and not once for each.
    const written = puts.mock.contexts.filter((store) => (store as IDBObjectStore).name === 'docs').length;
    expect([written > 1, written < 12]).toEqual([true, true]);
    await flush();
    expect((await docs())[0]!.doc.photos[0]!.notes[0]!.text).toBe('29');
    expect([scrub.mock.calls.length > 0, puts.mock.contexts.filter((store) => (store as IDBObjectStore).name === 'photos').length]).toEqual([true, 1]);
    expect([safe.value?.doc === doc.value, safe.value?.without.size]).toEqual([true, 0]);
  });

  it('writes all or nothing', async () => {
    change('open', { photo: await open('a.jpg'), scene: SCENE });
    await flush();
    const before = await docs();
    const put = IDBObjectStore.prototype.put;
    const broken = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...args) {
      if (this.name === 'desk') throw new DOMException('no', 'DataError');
      return put.apply(this, args as [unknown]);
    });
    change('note', { notes: [{ id: 'n', at: [1, 1], text: 'half' }] });
    expect(await flush()).toBe(false);
    expect(broken).toHaveBeenCalled();
    expect(await docs()).toEqual(before);
    expect(problem.value?.title).toBe('Your work could not be kept on this device.');
    vi.restoreAllMocks();
    change('note', { notes: [{ id: 'n', at: [1, 1], text: 'whole' }] });
    expect(await flush()).toBe(true);
    expect([(await docs())[0]!.doc.photos[0]!.notes[0]!.text, problem.value, status.value]).toEqual(['whole', null, 'Your work is kept on this device again.']);
  });

  it('goes on as a copy when another window wrote the case', async () => {
    change('open', { photo: await open('a.jpg'), scene: SCENE });
    await flush();
    await rename(current.value!.id, 'Molar');
    const { id } = current.value!;
    await within('readwrite', async (tx) => {
      const head = (await tx.objectStore('cases').get(id))!;
      await tx.objectStore('cases').put({ ...head, revision: head.revision + 1, by: 'another' });
      await tx.objectStore('docs').put({ id, doc: 'of the other' });
    });
    change('note', { notes: [{ id: 'n', at: [1, 1], text: 'mine' }] });
    await vi.waitFor(async () => expect(await heads()).toHaveLength(2));
    const found = await docs();
    expect(found.find((d) => d.id === id)!.doc).toBe('of the other');
    expect(found.find((d) => d.id !== id)!.doc.photos[0]!.notes[0]!.text).toBe('mine');
    expect((await heads()).map((h) => h.label).sort()).toEqual(['Molar', 'Molar (copy from this window)']);
    expect(problem.value?.title).toContain('Molar was changed in another window');
  });

  it('keeps what fits when it is full, and tells once', async () => {
    const put = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...args) {
      if (this.name === 'photos') throw new DOMException('full', 'QuotaExceededError');
      return put.apply(this, args as [unknown]);
    });
    change('open', { photo: await open('a.jpg'), scene: SCENE });
    await flush();
    expect(problem.value?.title).toBe('There is no room left to keep the photos on this device.');
    problem.value = null;
    change('note', { notes: [{ id: 'n', at: [1, 1], text: 'x' }] });
    await flush();
    expect([problem.value, (await docs())[0]!.doc.photos[0]!.here, safe.value?.without.size]).toEqual([null, false, 1]);
    // The case cannot be left for another without a way back.
    await newCase();
    expect([doc.value.photo, undoLabel.value]).toEqual([null, 'begin a new case']);
    undoStep();
    expect(doc.value.photo?.name).toBe('a.jpg');
  });

  it('tells a full, a shut and an erased database apart', async () => {
    const asked = vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('no', 'SecurityError');
    });
    await reopenDatabase();
    await expect(within('readonly', async () => {})).rejects.toMatchObject({ trouble: 'refused' });
    asked.mockImplementation(() => {
      throw new DOMException('no', 'VersionError');
    });
    await expect(within('readonly', async () => {})).rejects.toMatchObject({ trouble: 'newer' });
    asked.mockRestore();
    closeDatabase();
    await expect(within('readonly', async () => {})).rejects.toBeInstanceOf(KeepError);
    await reopenDatabase();
  });
});

describe('cases', () => {
  const keepOne = async (name: string, label: string): Promise<string> => {
    change('open', { photo: await open(name), scene: SCENE });
    await flush();
    await rename(current.value!.id, label);
    return current.value!.id;
  };

  it('are left and come back, and undo does not lead from one into another', async () => {
    const first = await keepOne('a.jpg', 'A');
    expect(await newCase()).toBeNull();
    expect([doc.value.photo, current.value, undoLabel.value]).toEqual([null, null, null]);
    await keepOne('b.jpg', 'B');
    expect(await openKept(first)).toBeNull();
    expect([doc.value.photo?.name, doc.value.scene, current.value?.label, undoLabel.value]).toEqual(['a.jpg', SCENE, 'A', null]);
    await cases.refresh();
    expect(kept.value?.map((h) => h.label)).toEqual(['B', 'A']);
    // Only to look at it changes no case but the one that is open.
    expect(await openKept('nothing')).toBe('gone');
    expect(current.value?.label).toBe('A');
  });

  it('from a file become the one on the desk, and what was there stays', async () => {
    await keepOne('a.jpg', 'A');
    const photo = await open('of the file.jpg');
    expect(await putCase({ photo, scene: SCENE }, { label: 'From afar', created: '2026-01-02T03:04:05.000Z' })).toBe(true);
    await flush();
    expect((await heads()).map((h) => [h.label, h.created.slice(0, 10) === '2026-01-02']).sort()).toEqual([['A', false], ['From afar', true]]);
    expect([doc.value.photo, undoLabel.value]).toEqual([photo, null]);
  });

  it('share photos, which go with the last that has them', async () => {
    const first = await keepOne('a.jpg', 'A');
    await newCase();
    const copy = (await duplicate(first, () => 'A2'))!;
    await remove(first);
    await cases.refresh();
    expect(kept.value?.map((h) => [h.label, Boolean(h.deleted)])).toContainEqual(['A', true]);
    expect(await readCase(first)).toBe('gone');
    await bringBack(first);
    expect(typeof (await readCase(first))).toBe('object');
    await remove(first);
    await tidy();
    expect(await heads()).toHaveLength(2);
    await tidy(first);
    expect([(await heads()).map((h) => h.id), (await all('photos')).length]).toEqual([[copy], 1]);
    await tidy(copy);
    expect([await heads(), await all('photos')]).toEqual([[], []]);
  });

  it('that were deleted go for good after a while, and photos of none after a day', async () => {
    const first = await keepOne('a.jpg', 'A');
    await remove(first);
    const age = (ms: number) => new Date(Date.now() - ms).toISOString();
    await within('readwrite', async (tx) => {
      const head = (await tx.objectStore('cases').get(first))!;
      await tx.objectStore('cases').put({ ...head, deleted: age(11 * 60_000) });
      await tx.objectStore('photos').put({ print: 'young', file: new Blob(['y']), at: age(3600_000) });
      await tx.objectStore('photos').put({ print: 'old', file: new Blob(['o']), at: age(25 * 3600_000) });
    });
    await tidy();
    expect([await heads(), (await all<{ print: string }>('photos')).map((p) => p.print)]).toEqual([[], ['young']]);
  });

  it('are as they were looked at last', async () => {
    const first = await keepOne('a.jpg', 'A');
    const b = await open('b.jpg');
    change('lay', withLaid(doc.value, b));
    const laid = doc.value.tray[0]!;
    lookAt({ ...laid, tray: [{ ...openPhotos(doc.value)[0]! }] });
    await flush();
    await newCase();
    await openKept(first);
    expect([doc.value.photo?.name, doc.value.tray.map((l) => l.photo.name)]).toEqual(['b.jpg', ['a.jpg']]);
  });
});

describe('what is the user’s own', () => {
  it('is in both places, and the newer one counts', async () => {
    const end = startKeeping();
    change('book', { stains: { ...doc.value.stains, own: { demo: false, stains: [{ name: 'umbra', glaze: false, resting: false }], swatches: [] } } });
    await vi.waitFor(async () => expect(await all<{ key: string }>('desk')).toEqual([expect.objectContaining({ key: 'stains' })]));
    const { at, text } = keptStains()!;
    takeStains({ at: at - 1, text: '{"own":{"swatches":[]}}' });
    expect(doc.value.stains.own.stains).toHaveLength(1);
    takeStains({ at: at + 1, text: '{"own":{"swatches":[],"stains":[{"name":"a"},{"name":"b"}]}}' });
    expect([doc.value.stains.own.stains.length, text.includes('umbra')]).toEqual([2, true]);
    end();
  });

  it('has the work beside it only until its case has it', async () => {
    const end = startKeeping();
    const work = { label: 'W', restoration: null, target: null, zones: [{ zone: 'middle', from: [1, 2, 3], to: [1, 2, 3] }], plan: { zones: [], steps: [], shortfalls: [], cautions: [] }, ticks: [], passes: [] } as never;
    change('work', { stains: { ...doc.value.stains, work } });
    expect(JSON.parse(texts.get('tabside.stains.1')!).work.label).toBe('W');
    await flush();
    expect([workKept.value, JSON.parse(texts.get('tabside.stains.1')!).work, (await docs())[0]!.doc.stains.work?.label]).toEqual([true, null, 'W']);
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no', 'DataError');
    });
    change('work', { stains: { ...doc.value.stains, work: { ...(work as object), label: 'W2' } as never } });
    await flush();
    expect([workKept.value, JSON.parse(texts.get('tabside.stains.1')!).work.label]).toEqual([false, 'W2']);
    end();
  });
});
