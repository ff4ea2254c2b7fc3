import { describe, expect, it } from 'vitest';
import { EngineClient } from '../src/engine/client';
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
    const client = new EngineClient(make);
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
    const bad = new EngineClient(make).call('open', [new Blob(['x'])], { onPhase: (p) => phases.push(p) });
    await expect(bad).rejects.toMatchObject({ kind: 'file-damaged', message: 'The file is not a picture.' });
    expect(phases).toEqual(['working']);
  });

  it('ends the worker when the running call is aborted, and goes on with a new one', async () => {
    const { made, make } = workers();
    let restarts = 0;
    const client = new EngineClient(make, () => restarts++);
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
    const client = new EngineClient(make);
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
    const client = new EngineClient(make);
    await client.call('guide', []);
    made[0]!.breakNext = true;
    await expect(client.call('guide', [])).rejects.toBeInstanceOf(EngineError);
    expect((await client.call('guide', [])).name).toBe(FAKE_GUIDE.name);
    expect(made.length).toBe(2);
  });
});

describe('the desk', () => {
  const read = (desk: Desk, photo: Awaited<ReturnType<Desk['open']>>, more = {}) =>
    desk.read({ photo, polarised: null, scene: SCENE, target: undefined, guide: null, ...more });

  it('opens a photo again from its file after a restart', async () => {
    const { made, make } = workers();
    const desk = new Desk(make);
    const photo = await desk.open(JPEG, 'a.jpg', options);
    made[0]!.held = true;
    const abort = new AbortController();
    const running = desk.preview(photo, 100, { signal: abort.signal });
    await Promise.resolve();
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
    await Promise.resolve();
    // Asked with the id that the photo had in the first worker; the second one knows no such id.
    const waiting = read(desk, photo);
    await Promise.resolve();
    abort.abort();
    await expect(searching).rejects.toBe(abort.signal.reason);
    expect((await waiting).version).toBe('0.0.0');
    expect(made[1]!.received.map((r) => r.call)).toEqual(['read', 'open', 'read']);
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
});
