import { describe, expect, it, vi } from 'vitest';
import { WorkerClient } from '../src/engine/client';
import type { Calls } from '../src/worker/protocol';
import { Desk } from '../src/engine/desk';
import { EngineError, type Scene } from '../src/engine/types';
import { FAKE_GUIDE } from './fake_engine';
import { FakeWorker } from './fake_worker';

function workers() {
  const made: FakeWorker[] = [];
  const make = () => {
    const worker = new FakeWorker();
    made.push(worker);
    return worker;
  };
  return { made, make };
}

const JPEG = new Blob([new Uint8Array([0xff, 0xd8])]);
const SCENE: Scene = { card: { outline: [[0, 0], [1, 0], [1, 1]] }, regions: [] };
const options = { tooLarge: 'too large' };

describe('the client', () => {
  it('sends one call at a time, in order', async () => {
    const { made, make } = workers();
    const client = new WorkerClient<Calls>(make);
    const first = client.call('open', [JPEG]);
    const second = client.call('guide', []);
    expect(made[0]!.received.map((r) => r.call)).toEqual(['open']);
    expect((await first).id).toBe(1);
    expect((await second).name).toBe(FAKE_GUIDE.name);
    expect(made[0]!.received.map((r) => r.call)).toEqual(['open', 'guide']);
  });

  it('tells phases and passes on the engine’s own errors', async () => {
    const { make } = workers();
    const phases: string[] = [];
    const bad = new WorkerClient<Calls>(make).call('open', [new Blob(['x'])], { onPhase: (p) => phases.push(p) });
    await expect(bad).rejects.toMatchObject({ kind: 'file-damaged', message: 'The file is not a picture.' });
    expect(phases).toEqual(['working']);
  });

  it('ends the worker when the running call is aborted, and goes on with a new one', async () => {
    const { made, make } = workers();
    let restarts = 0;
    const client = new WorkerClient<Calls>(make, () => restarts++);
    await client.call('guide', []);
    made[0]!.held = true;
    const abort = new AbortController();
    const running = client.call('open', [JPEG], { signal: abort.signal });
    const waiting = client.call('guide', []);
    abort.abort();
    await expect(running).rejects.toBe(abort.signal.reason);
    expect([made[0]!.terminated, made.length, restarts]).toEqual([true, 2, 1]);
    expect((await waiting).name).toBe(FAKE_GUIDE.name);
  });

  it('only forgets a waiting call that is aborted', async () => {
    const { made, make } = workers();
    const client = new WorkerClient<Calls>(make);
    const running = client.call('guide', []);
    const abort = new AbortController();
    const waiting = client.call('open', [JPEG], { signal: abort.signal });
    abort.abort();
    await expect(waiting).rejects.toBe(abort.signal.reason);
    await running;
    expect([made.length, made[0]!.terminated, made[0]!.received.length]).toEqual([1, false, 1]);
    await expect(client.call('guide', [], { signal: abort.signal })).rejects.toBe(abort.signal.reason);
  });

  it('takes a new worker after the engine broke down', async () => {
    const { made, make } = workers();
    const client = new WorkerClient<Calls>(make);
    await client.call('guide', []);
    made[0]!.breakNext = true;
    await expect(client.call('guide', [])).rejects.toBeInstanceOf(EngineError);
    expect((await client.call('guide', [])).name).toBe(FAKE_GUIDE.name);
    expect(made.length).toBe(2);
  });
});

describe('the desk', () => {
  /** Until everything that can be sent is sent. */
  const turn = () => new Promise((done) => setTimeout(done));
  const read = (desk: Desk, photo: Awaited<ReturnType<Desk['open']>>, more = {}) =>
    desk.read({ photo, polarised: null, scene: SCENE, target: undefined, guide: null, ...more });

  it('opens a photo again from its file after a restart', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const photo = await desk.open(JPEG, 'a.jpg', options);
    made[0]!.held = true;
    const abort = new AbortController();
    const running = desk.preview(photo, 100, { signal: abort.signal });
    await turn();
    abort.abort();
    await expect(running).rejects.toBeTruthy();
    expect((await read(desk, photo)).version).toBe('0.0.0');
    expect(made[1]!.received.map((r) => r.call)).toEqual(['open', 'read']);
  });

  it('asks again for what waited its turn when the worker was lost', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const other = await desk.open(JPEG, 'a.jpg', options);
    const photo = await desk.open(JPEG, 'b.jpg', options);
    made[0]!.held = true;
    const abort = new AbortController();
    const searching = desk.find(photo, { signal: abort.signal });
    await turn();
    // Its photo had an id in the first worker; in the second one that could be another photo's.
    const waiting = read(desk, photo);
    await turn();
    abort.abort();
    await expect(searching).rejects.toBe(abort.signal.reason);
    expect((await waiting).version).toBe('0.0.0');
    expect(made[1]!.received.map((r) => r.call)).toEqual(['open', 'read']);
    expect((await desk.preview(other, 100)).width).toBe(60);
  });

  it('sends the chosen guide once, and the default again when it is given up', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const photo = await desk.open(JPEG, 'a.jpg', options);
    const own = { ...FAKE_GUIDE, name: 'Own', source: 'measured' as const };
    await read(desk, photo);
    await read(desk, photo, { guide: own });
    await read(desk, photo, { guide: own });
    await read(desk, photo);
    const guides = made[0]!.received.filter((r) => r.call === 'set_guide').map((r) => r.args[0]);
    expect(guides).toEqual([own, undefined]);
  });

  it('asks for the map of the glare with both photos known for a pair, after a restart too', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const photo = await desk.open(JPEG, 'a.jpg', options);
    const polarised = await desk.open(JPEG, 'b.jpg', options);
    const wanted = { photo, polarised, scene: SCENE, target: undefined, guide: FAKE_GUIDE };
    expect((await desk.glareMap(wanted, 100)).width).toBe(30);
    expect(made[0]!.received.slice(2).map((r) => r.call)).toEqual(['set_guide', 'pair', 'glare_map']);
    made[0]!.breakNext = true;
    await expect(desk.glareMap(wanted, 100)).rejects.toMatchObject({ kind: 'internal' });
    await desk.glareMap(wanted, 100);
    expect(made[1]!.received.map((r) => r.call)).toEqual(['open', 'open', 'set_guide', 'pair', 'glare_map']);
  });

  it('pairs and unpairs', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const photo = await desk.open(JPEG, 'a.jpg', options);
    const polarised = await desk.open(JPEG, 'b.jpg', options);
    await read(desk, photo);
    await read(desk, photo, { polarised });
    await read(desk, photo, { polarised });
    await read(desk, photo);
    expect(made[0]!.received.filter((r) => r.call === 'pair').map((r) => r.args)).toEqual([[1, 2], [1, null]]);
  });

  it('refuses a file too large to be read at all, and a photo that was closed', async () => {
    const { make } = workers();
    const desk = new Desk(make);
    const huge = { size: 1e9 } as Blob;
    await expect(desk.open(huge, 'x', options)).rejects.toMatchObject({ kind: 'too-large', message: 'too large' });
    const photo = await desk.open(JPEG, 'a.jpg', options);
    desk.close(photo);
    await expect(desk.preview(photo, 10)).rejects.toMatchObject({ kind: 'input' });
  });

  const open = async (desk: Desk, ...names: string[]) => {
    const photos = [];
    for (const name of names) photos.push(await desk.open(JPEG, name, options));
    return photos as [Awaited<ReturnType<Desk['open']>>, ...Awaited<ReturnType<Desk['open']>>[]];
  };
  const seen = (worker: FakeWorker) => worker.received.map((r) => (r.call === 'open' ? 'open' : `${r.call} ${r.args[0]}`));

  it('keeps three photos decoded: the least recently used is closed, and opened again when needed', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const [a, b, c] = await open(desk, 'a', 'b', 'c');
    await desk.preview(a, 10);
    const [d] = await open(desk, 'd');
    await desk.preview(b!, 10);
    await desk.preview(a, 10);
    await desk.preview(c!, 10);
    expect(seen(made[0]!)).toEqual(['open', 'open', 'open', 'preview 1', 'close 2', 'open', 'close 3', 'open', 'preview 5', 'preview 1', 'close 4', 'open', 'preview 6']);
    // A photo that is not decoded is closed without a word, and is closed for good.
    desk.close(d!);
    await expect(desk.preview(d!, 10)).rejects.toMatchObject({ kind: 'input' });
  });

  it('never holds more, whatever is asked for at once, and gives every photo its own answer', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const photos = await open(desk, ...'abcdefgh');
    const scenes = photos.map((_, i): Scene => ({ card: { outline: [[i, 0], [1, 0], [1, 1]] }, regions: [] }));
    const guide = (i: number) => (i % 2 ? { ...FAKE_GUIDE, name: `Guide ${i}` } : null);
    const reports = await Promise.all(photos.map((photo, i) => desk.read({ photo, polarised: photos[(i + 3) % 8]!, scene: scenes[i]!, target: undefined, guide: guide(i) })));
    expect(reports.map((r) => r.scene)).toEqual(scenes);
    // As the worker saw it: what was decoded at a time, with which guide and partner each was read.
    let [next, most] = [1, 0];
    let guideNow: unknown;
    const partner = new Map<unknown, unknown>();
    const decoded = new Set<unknown>();
    const readWith: unknown[] = [];
    for (const { call, args } of made[0]!.received) {
      if (call === 'open') decoded.add(next++);
      else if (call === 'close') decoded.delete(args[0]);
      else if (call === 'set_guide') guideNow = args[0];
      else if (call === 'pair') partner.set(args[0], args[1]);
      else if (call === 'read') {
        expect(decoded.has(args[0])).toBe(true);
        expect(decoded.has(partner.get(args[0]))).toBe(true);
        readWith.push([scenes.indexOf(args[1] as Scene), (guideNow as typeof FAKE_GUIDE | undefined)?.name]);
      }
      most = Math.max(most, decoded.size);
    }
    expect(readWith.sort()).toEqual(photos.map((_, i) => [i, guide(i)?.name]));
    expect(most).toBe(3);
  });

  it('decodes a photo once for several calls, and for those that are left when one is cancelled', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const [a] = await open(desk, 'a', 'b', 'c', 'd');
    made[0]!.held = true;
    const abort = new AbortController();
    const first = desk.preview(a, 10, { signal: abort.signal });
    const second = desk.preview(a, 20);
    await turn();
    abort.abort();
    await expect(first).rejects.toBe(abort.signal.reason);
    expect((await second).width).toBe(60);
    expect(made[1]!.received.map((r) => r.call)).toEqual(['open', 'preview']);
  });

  it('looks for things in a photo once, whoever asks, and again after a cancelled search', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const [a] = await open(desk, 'a');
    const finds = () => made.flatMap((w) => w.received).filter((r) => r.call === 'find').length;
    const [one, two] = await Promise.all([desk.find(a), desk.find(a)]);
    expect([two, await desk.find(a), finds()]).toEqual([one, one, 1]);
    const [b] = await open(desk, 'b');
    made[0]!.held = true;
    const abort = new AbortController();
    const cancelled = desk.find(b, { signal: abort.signal });
    const waiting = desk.find(b);
    await turn();
    abort.abort();
    await expect(cancelled).rejects.toBe(abort.signal.reason);
    expect((await waiting).regions).toHaveLength(4);
    // One's own cancelling waits for nobody and ends nobody's work.
    const [c] = await open(desk, 'c');
    made[1]!.held = true;
    void desk.find(c);
    const mine = new AbortController();
    const asked = desk.find(c, { signal: mine.signal });
    await turn();
    mine.abort();
    await expect(asked).rejects.toBe(mine.signal.reason);
    expect(made).toHaveLength(2);
  });

  it('sends nothing about a photo of the worker before: its id may be another photo’s now', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const [a, b] = await open(desk, 'a', 'b');
    made[0]!.held = true;
    const abort = new AbortController();
    const running = desk.find(a, { signal: abort.signal });
    await turn();
    const opening = desk.open(JPEG, 'c', options);
    // In the new worker c gets the id that a had.
    const reading = read(desk, a);
    const other = desk.preview(b!, 10);
    await turn();
    abort.abort();
    await expect(running).rejects.toBe(abort.signal.reason);
    await Promise.all([opening, reading, other]);
    const sent = made[1]!.received.map((r) => (r.call === 'open' ? 'open' : `${r.call} ${r.args[0]}`));
    expect(sent).not.toContain('read 1');
    expect(sent.filter((s) => s === 'open')).toHaveLength(3);
  });
});

it.each([[1, 1], [2, 2], [undefined, 2]])('the page has a helper where there is a core for it: of %s', async (hardwareConcurrency, readers) => {
  vi.resetModules();
  vi.stubGlobal('navigator', { hardwareConcurrency });
  expect((await import('../src/engine/instance')).desk.lanes).toHaveLength(readers);
  vi.unstubAllGlobals();
});
