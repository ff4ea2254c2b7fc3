import '../src/words/later';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { FAKE_GUIDE } from './fake_engine';
import { FakeWorker } from './fake_worker';

let takesMs: Partial<Record<string, number>> = {};
/** What becomes of the helper when it is asked for something. */
let losing: { call: string; lose: (worker: FakeWorker) => void } | null = null;
/** What was asked of any of the workers, in order. */
const log: { by: FakeWorker; call: string; args: unknown[] }[] = [];
const made: (FakeWorker & { lane: 'front' | 'helper' })[] = [];
vi.mock('../src/engine/instance', async () => {
  const { Desk } = await import('../src/engine/desk');
  const make = (lane: 'front' | 'helper') => {
    const worker = new FakeWorker();
    const post = worker.postMessage.bind(worker);
    worker.postMessage = (asked) => {
      log.push({ by: worker, ...asked });
      if (lane === 'helper' && asked.call === losing?.call) {
        losing.lose(worker);
        losing = null;
      }
      const ms = takesMs[asked.call];
      if (ms) setTimeout(() => post(asked), ms);
      else post(asked);
    };
    made.push(Object.assign(worker, { lane }));
    return worker;
  };
  return { desk: new Desk(make, ['front', 'helper']) };
});

const { desk } = await import('../src/engine/instance');
const { change, doc, photo, putDesk } = await import('../src/state/desk');
const { EMPTY_DOC } = await import('../src/state/doc');
const { openFiles, openPhoto } = await import('../src/state/open');
const { reading, startReading } = await import('../src/state/reading');
const { busy, problem } = await import('../src/state/status');
const { mode } = await import('../src/state/ui');
const { startBehind, trayWork } = await import('../src/state/tray/behind');
const { incoming, opening } = await import('../src/state/tray/incoming');
const { openPhotos } = await import('../src/state/tray/laid');
const { showLaid } = await import('../src/state/tray/show');
const { startTray, trayProblems, trayReports } = await import('../src/state/tray/reports');

const file = (name: string) => new File([new Uint8Array([0xff, ...new TextEncoder().encode(name)])], name, { type: 'image/jpeg' });
const files = (names: string) => [...names].map((n) => file(`${n}.jpg`));
const names = () => openPhotos(doc.value).map((l) => l.photo.name);
const of = (worker: FakeWorker | undefined, call: string) => log.filter((l) => l.by === worker && l.call === call);
const calls = (call: string) => log.filter((l) => l.call === call);
const [front, helper] = (['front', 'helper'] as const).map((lane) => () => made.findLast((w) => w.lane === lane)) as [() => FakeWorker | undefined, () => FakeWorker | undefined];
const allRead = (n: number) =>
  vi.waitFor(() => expect([busy.value, opening.value, trayWork.value, trayReports.value.size, doc.value.tray.length]).toEqual([null, null, [], n - 1, n - 1]), 10_000);

/** The most photos that were decoded at a time, in all workers together. */
function mostDecoded(): number {
  const held = new Map<FakeWorker, { next: number; ids: Set<unknown> }>();
  let most = 0;
  for (const { by, call, args } of log) {
    const mine = held.get(by) ?? { next: 1, ids: new Set() };
    held.set(by, mine);
    if (call === 'open') mine.ids.add(mine.next++);
    if (call === 'close') mine.ids.delete(args[0]);
    most = Math.max(most, [...held].reduce((sum, [worker, { ids }]) => sum + (worker.terminated ? 0 : ids.size), 0));
  }
  return most;
}

startReading();
startTray();
startBehind();

beforeEach(async () => {
  await vi.waitFor(() => expect([busy.value, opening.value, trayWork.value]).toEqual([null, null, []]));
  putDesk(EMPTY_DOC);
  // When the photos are closed both end, so that each test begins with none.
  await new Promise((done) => setTimeout(done, 5));
  made.forEach((worker) => worker.onerror?.({ message: 'over' } as ErrorEvent));
  incoming.value = [];
  problem.value = null;
  mode.value = 'reading';
  made.length = log.length = 0;
  takesMs = { find: 30 };
});

describe('many photos at once', () => {
  // The first test: a helper that is there helps.
  it('are what a second worker is begun for, not one that waits behind another', async () => {
    await openPhoto(file('a.jpg'), 'a.jpg');
    await vi.waitFor(() => expect([busy.value, reading.value?.report.readings.length]).toEqual([null, 4]));
    await openPhoto(file('b.jpg'), 'b.jpg');
    await allRead(2);
    change('guide', { guide: { ...FAKE_GUIDE, name: 'Own' } });
    expect(trayReports.value.size).toBe(0);
    await allRead(2);
    expect(made).toHaveLength(1);
  });

  it.each([{ find: 30 }, { open: 30 }, { read: 30 }])('are opened once each, searched and read by two workers, with no more decoded than by one: %o', async (ms) => {
    takesMs = ms;
    await openFiles(files('abcdefgh'));
    await allRead(8);
    expect(names()).toEqual([...'abcdefgh'].map((n) => `${n}.jpg`));
    expect([made.length, calls('open').length, calls('find').length]).toEqual([2, 8, 8]);
    expect([of(front(), 'find').length > 1, of(helper(), 'find').length > 1]).toEqual([true, true]);
    expect(mostDecoded()).toBeLessThanOrEqual(3);
    for (const [, { laid, report }] of trayReports.value) expect(report.scene).toBe(laid.scene);
  });

  it('are all read with the guide that the user chose, by either', async () => {
    await openFiles(files('abcdef'));
    await allRead(6);
    const own = { ...FAKE_GUIDE, name: 'Own' };
    change('guide', { guide: own });
    log.length = 0;
    await allRead(6);
    for (const worker of made) {
      expect(of(worker, 'set_guide').map((l) => l.args[0])).toEqual([own]);
      expect(log.findIndex((l) => l.by === worker && l.call === 'set_guide')).toBeLessThan(log.findIndex((l) => l.by === worker && l.call === 'read'));
    }
    expect(calls('read')).toHaveLength(6);
  });

  it('with a partner are read where both are', async () => {
    await openFiles(files('abcdef'));
    await allRead(6);
    const polarised = await desk.open(file('x.jpg'), 'x.jpg', { tooLarge: '' });
    log.length = 0;
    change('pair', { tray: doc.value.tray.map((l) => ({ ...l, polarised })) });
    await allRead(6);
    expect([of(front(), 'pair').length, of(front(), 'read').length, of(helper(), 'read').length]).toEqual([5, 5, 0]);
    const { photo: pair, scene } = doc.value.tray[0]!;
    await desk.read({ photo: pair, polarised, scene, target: undefined, guide: null }, { by: 'helper' });
    expect([of(front(), 'read').length, of(helper(), 'read').length]).toEqual([6, 0]);
  });
});

describe('the photo that is looked at', () => {
  it('does not wait for what is done behind it, even when that never ends', async () => {
    await openFiles(files('abcd'));
    await allRead(4);
    // What is begun from here on hangs in both.
    made.forEach((worker) => (worker.held = true));
    change('guide', { guide: { ...FAKE_GUIDE, name: 'Own' }, photo: null });
    await vi.waitFor(() => expect(trayWork.value).toHaveLength(2));
    await openPhoto(file('now.jpg'), 'now.jpg');
    expect(photo.value?.name).toBe('now.jpg');
    await vi.waitFor(() => expect(reading.value?.report.readings).toHaveLength(4), 3000);
    expect([made[0]!.terminated, helper()!.terminated]).toEqual([true, false]);
    // The worker that hangs is one that is lost.
    helper()!.onerror!({ message: 'lost' } as ErrorEvent);
    await allRead(4);
    expect(trayProblems.value.size).toBe(0);
  });

  it('is not searched again where it is already, or was', async () => {
    await openFiles(files('abcdef'));
    await vi.waitFor(() => expect(of(helper(), 'find').length).toBeGreaterThan(0));
    const { photo: at } = doc.value.tray.find((l) => desk.laneOf(l.photo) === 'helper')!;
    await showLaid(at);
    await allRead(6);
    expect([photo.value, calls('find').length]).toEqual([at, 6]);
  });
});

describe('the helper', () => {
  const ways: Record<string, (worker: FakeWorker) => void> = {
    'breaks down': (worker) => void (worker.breakNext = true),
    'is not there any more': (worker) => void setTimeout(() => worker.onerror!({ message: 'lost' } as ErrorEvent)),
  };
  it.each(Object.keys(ways).flatMap((way) => ['open', 'find', 'read'].map((call) => [way, call] as const)))('%s at “%s”, and nothing is lost', async (way, call) => {
    losing = { call, lose: ways[way]! };
    await openFiles(files('abcdefgh'));
    await allRead(8);
    expect([losing, names(), incoming.value, problem.value, trayProblems.value.size]).toEqual([null, [...'abcdefgh'].map((n) => `${n}.jpg`), [], null, 0]);
    expect(doc.value.tray.map((l) => l.scene.regions.length)).toEqual([4, 4, 4, 4, 4, 4, 4]);
    expect(made.find((w) => w.lane === 'helper')!.terminated).toBe(true);
  });

  it('is ended when there is nothing more to do, and begun again when there is', async () => {
    await openFiles(files('abcdef'));
    await allRead(6);
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval'] });
    try {
      change('guide', { guide: { ...FAKE_GUIDE, name: 'Own' } });
      await vi.advanceTimersByTimeAsync(8000);
      expect([trayReports.value.size, helper()!.terminated]).toEqual([5, false]);
      await vi.advanceTimersByTimeAsync(10_000);
      expect([helper()!.terminated, made[0]!.terminated]).toEqual([true, false]);
    } finally {
      vi.useRealTimers();
    }
    change('guide', { guide: null });
    await allRead(6);
    expect(made).toHaveLength(3);
    expect(mostDecoded()).toBeLessThanOrEqual(3);
  });
});
