import { beforeEach, describe, expect, it, vi } from 'vitest';
import { FakeWorker } from './fake_worker';

const worker = new FakeWorker();
vi.mock('../src/engine/instance', async () => {
  const { Desk } = await import('../src/engine/desk');
  return { desk: new Desk(() => worker) };
});

const store = new Map<string, string>();
vi.stubGlobal('localStorage', { getItem: (k: string) => store.get(k) ?? null, setItem: (k: string, v: string) => void store.set(k, v) });
const listeners = new Map<string, (event: unknown) => void>();
vi.stubGlobal('window', { addEventListener: (type: string, f: (event: unknown) => void) => listeners.set(type, f), removeEventListener: () => listeners.clear() });

const { startWith, undoStep, doc } = await import('../src/state/desk');
const { EMPTY_DOC } = await import('../src/state/doc');
const { EMPTY_STAINS } = await import('../src/state/stains/stains_doc');
const { fromStore, stainsFrom, startKeeping } = await import('../src/state/stains/kept');
const s = await import('../src/state/stains/swatches');
const p = { ...(await import('../src/state/stains/planning')), ...(await import('../src/state/stains/plan_inputs')) };
const w = await import('../src/state/stains/work');
const { fitted, startFitting } = await import('../src/state/stains/fitted');
const { problem } = await import('../src/state/status');
const { mode } = await import('../src/state/ui');

const KEY = 'tabside.stains.1';
const file = (text: string) => new Blob([text]);
const BOOK = { demo: false, stains: [], swatches: [{ stain: 'umbra', coats: 1, base: [78, 1, 16], after: [76.5, 1.6, 17.5] }] };
const COLOURS = { from: ['78', '0', '14'], to: ['74', '2', '18'] } as const;

beforeEach(() => {
  store.clear();
  startWith({ ...EMPTY_DOC, stains: EMPTY_STAINS });
  problem.value = null;
  mode.value = 'reading';
});

describe('swatches on the desk', () => {
  it('are entered, changed, removed and undone', () => {
    s.startDraft('umbra');
    s.editDraft({ base: ['78', '1', '16'] });
    expect(s.keepDraft()).toBe(false);
    s.takeColour('after', [76.512, 1.6, 17.5], 1.234, 'tab 3');
    expect(s.draft.value).toMatchObject({ after: ['76.51', '1.6', '17.5'], afterFrom: 'tab 3', doubt: '1.2' });
    expect(s.keepDraft()).toBe(true);
    expect(s.ownBook.value.swatches).toEqual([{ stain: 'umbra', coats: 1, base: [78, 1, 16], after: [76.51, 1.6, 17.5], doubt: 1.2, note: 'tab 3' }]);
    expect(s.draft.value).toBeNull();
    s.reviseSwatch(0);
    s.editDraft({ coats: 2 });
    s.keepDraft();
    expect(s.ownBook.value.swatches.map((x) => x.coats)).toEqual([2]);
    // What is being changed is found again when others have come before it or it has gone.
    s.reviseSwatch(0);
    s.editDraft({ coats: 3 });
    s.removeSwatch(0);
    expect(s.ownBook.value.swatches).toEqual([]);
    undoStep();
    expect(s.ownBook.value.swatches).toHaveLength(1);
    s.removeSwatch(0);
    s.keepDraft();
    expect(s.ownBook.value.swatches.map((x) => x.coats)).toEqual([3]);
  });

  it('take a file in, refuse a bad one in words, and lose nothing', async () => {
    await s.openSwatches(file(JSON.stringify(BOOK)), 'mine.swatches.json');
    expect(w.book.value.swatches).toHaveLength(1);
    await s.openSwatches(file('{"swatches":[{"stain":"x"}]}'), 'bad.swatches.json');
    expect(problem.value?.title).toContain('bad.swatches.json');
    expect(problem.value?.text).toMatch(/number above 0|not as it should/);
    expect(problem.value?.advice).toBe('Choose a file of swatches that was saved here, or a part of it.');
    await s.openSwatches(file(JSON.stringify({ ...BOOK, swatches: Array.from({ length: 60 }, (_, i) => ({ ...BOOK.swatches[0], stain: `s${i}` })) })), 'many.swatches.json');
    expect(problem.value?.text).toContain('more than 60 stains');
    expect(w.book.value.swatches).toHaveLength(1);
    await s.openSwatches(file(JSON.stringify({ ...BOOK, swatches: [{ ...BOOK.swatches[0], stain: ' Umbra' }] })), 'same');
    expect(problem.value?.title).toContain('“Umbra” is taken for “umbra”');
    expect(w.book.value.swatches).toHaveLength(1);
    await s.openSwatches(file(JSON.stringify({ ...BOOK, demo: true, swatches: [] })), 'demo');
    expect([s.lentInUse.value, s.ownBook.value.swatches.length, w.book.value.swatches.length]).toEqual([true, 1, 0]);
    s.leaveLent();
    expect(w.book.value.swatches).toHaveLength(1);
  });

  it('are fitted when someone looks', async () => {
    const stop = startFitting();
    await s.openSwatches(file(JSON.stringify(BOOK)), 'x');
    expect(fitted.value).toBeNull();
    mode.value = 'swatches';
    await vi.waitFor(() => expect(fitted.value?.strengths.map((x) => x.stain)).toEqual(['umbra']));
    s.describeStain('umbra', { glaze: true });
    await vi.waitFor(() => expect(fitted.value?.strengths[0]?.glaze).toBe(true));
    stop();
  });
});

describe('an empty book', () => {
  it('is nothing that failed', async () => {
    const { fitProblem } = await import('../src/state/stains/fitted');
    const fits = () => worker.received.filter((r) => r.call === 'fit_swatches').length;
    const before = fits();
    const stop = startFitting();
    mode.value = 'swatches';
    s.describeStain('umbra', { glaze: true });
    await new Promise((done) => setTimeout(done, 20));
    expect([fitProblem.value, fits()]).toEqual([null, before]);
    stop();
  });
});

describe('a reading', () => {
  it('is not taken again because stains change', async () => {
    const { desk } = await import('../src/engine/instance');
    const { change } = await import('../src/state/desk');
    const { reading, readingPending, startReading } = await import('../src/state/reading');
    const photo = await desk.open(new Blob([new Uint8Array([0xff])]), 'a.jpg', { tooLarge: '' });
    const stop = startReading();
    change('open', { photo });
    await vi.waitFor(() => expect(reading.value).not.toBeNull());
    const reads = () => worker.received.filter((r) => r.call === 'read').length;
    const [before, was] = [reads(), reading.value];
    s.startDraft('umbra');
    s.editDraft({ coats: 2 });
    await new Promise((done) => setTimeout(done, 20));
    expect([reads(), readingPending.value, reading.value === was]).toEqual([before, false, true]);
    change('target', { target: 'x' });
    await vi.waitFor(() => expect(reads()).toBe(before + 1));
    stop();
  });
});

describe('a plan', () => {
  it('is refused with every reason, then made, begun by a tick, and outlives changes', async () => {
    const stop = p.startPlanning();
    mode.value = 'plan';
    expect(p.refusals.value.map((r) => r.why)).toEqual(['no-photo', 'no-swatches']);
    p.typeColours(true);
    expect(p.refusals.value.map((r) => r.why)).toEqual(['typed', 'no-swatches']);
    p.typeZone('middle', COLOURS);
    await s.openSwatches(file(JSON.stringify(BOOK)), 'x');
    await vi.waitFor(() => expect(p.proposed.value?.plan.zones).toHaveLength(1));
    p.nameWork('Case 7');
    p.tickStep(1, true);
    expect(w.work.value).toMatchObject({ label: 'Case 7', ticks: [1], passes: [] });
    p.tickStep(0, true);
    expect(w.work.value?.ticks).toEqual([0, 1]);
    undoStep();
    expect(w.work.value?.ticks).toEqual([1]);
    // Other colours and other stains change nothing about the job at hand.
    const { plan } = w.work.value!;
    expect(p.limitsChanged.value).toBe(false);
    p.changeLimits({ firings: 1 });
    expect([p.limitsChanged.value, w.work.value!.plan.limits.firings]).toEqual([true, 2]);
    p.changeLimits({ firings: 2 });
    expect(p.limitsChanged.value).toBe(false);
    p.typeZone('middle', { to: ['60', '2', '18'] });
    s.emptyBook();
    expect(p.shownPlan.value).toBe(plan);
    p.putAway();
    expect(w.work.value).toBeNull();
    undoStep();
    expect(w.work.value?.ticks).toEqual([1]);
    stop();
  });

  it('keeps to the stains that are allowed, at least one', async () => {
    await s.openSwatches(file(JSON.stringify({ ...BOOK, swatches: [...BOOK.swatches, { ...BOOK.swatches[0], stain: 'rust' }] })), 'x');
    p.allowStain('rust', false);
    expect(p.limits.value.stains).toEqual(['umbra']);
    p.allowStain('umbra', false);
    expect(p.limits.value.stains).toEqual(['umbra']);
    p.allowStain('rust', true);
    expect(p.limits.value.stains).toEqual([]);
  });
});

describe('what is kept on the device', () => {
  it('comes back as it was left', async () => {
    const stop = startKeeping();
    await s.openSwatches(file(JSON.stringify(BOOK)), 'x');
    s.startDraft('rust');
    p.typeColours(true);
    const left = doc.value.stains;
    stop();
    expect(fromStore(localStorage)).toEqual(left);
    // The other window's change comes in.
    const again = startKeeping();
    expect(doc.value.stains).toEqual(left);
    listeners.get('storage')!({ key: KEY, newValue: JSON.stringify({ ...left, draft: null }) });
    expect(s.draft.value).toBeNull();
    again();
  });

  it('is set aside when it cannot be read', () => {
    for (const text of ['{', '{}', '{"own":{"swatches":[{}]}}', JSON.stringify({ ...EMPTY_STAINS, work: { zones: [] } })]) {
      expect(() => stainsFrom(text), text).toThrow();
    }
    store.set(KEY, '{"own":7}');
    expect(fromStore(localStorage)).toBe(EMPTY_STAINS);
    expect(store.get(`${KEY}.aside`)).toBe('{"own":7}');
    expect(problem.value?.title).toContain('set aside');
  });
});
