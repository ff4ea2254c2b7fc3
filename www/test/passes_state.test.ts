import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { OpenPhoto } from '../src/engine/desk';
import type { Lab, Scene, SwatchBook } from '../src/engine/types';
import { square } from './squares';

vi.mock('../src/engine/instance', () => import('./fake_desk'));

const { desk } = await import('../src/engine/instance');
const { change, doc, startWith, undoLabel, undoStep, redoStep } = await import('../src/state/desk');
const { EMPTY_DOC } = await import('../src/state/doc');
const { reading, startReading } = await import('../src/state/reading');
const { problem, status } = await import('../src/state/status');
const { EMPTY_STAINS, USUAL_LIMITS } = await import('../src/state/stains/stains_doc');
const passes = await import('../src/state/stains/passes');
const unfired = await import('../src/state/stains/unfired');
const { openWork } = await import('../src/state/stains/work_files');
const { workToJson } = await import('../src/state/passes/work_file');
const { mode } = await import('../src/state/ui');
const { coatsOf, typeCoats } = await import('../src/state/passes/coats');
const { isStrange, paintedOf } = await import('../src/state/passes/pass_model');
const { fakePlan } = await import('./fake_stains');
const { work } = await import('../src/state/stains/work');

const BOOK: SwatchBook = {
  demo: false,
  stains: [],
  swatches: [
    { stain: 'ochre', coats: 1, base: [78, 0, 15], after: [76.6, 0.8, 18] },
    { stain: 'grey', coats: 1, base: [78, 0, 15], after: [75.8, 0, 14.6] },
  ],
};

/** A crown and a tooth; the farther right and down, the lighter and yellower the fake engine reads them. */
const sceneWith = (crown: number, tooth = 600): Scene => ({
  card: { outline: square(0, 0) },
  regions: [
    { id: 'c', kind: 'restoration', name: '21', outline: square(crown, 100) },
    { id: 't', kind: 'tooth', name: '11', outline: square(tooth, 900) },
  ],
});

const open = (name: string): Promise<OpenPhoto> => desk.open(new Blob([new Uint8Array([0xff])]), name, { tooLarge: '' });

async function show(name: string, scene: Scene): Promise<void> {
  change(`open ${name}`, { photo: await open(name), scene });
  await vi.waitFor(() => expect(reading.value?.doc).toMatchObject({ photo: { name } }));
}

startReading();
const zones = (from: number, to: number) =>
  (['cervical', 'middle'] as const).map((zone) => ({ zone, from: [from, 1, 15] as Lab, to: [to, 1.5, 20] as Lab, doubt: 1.7, blotch: 0.5 }));

beforeEach(async () => {
  const job = zones(76, 73);
  const plan = fakePlan(BOOK, { zones: job, limits: { ...USUAL_LIMITS, firings: 1 } });
  startWith({ ...EMPTY_DOC, stains: { ...EMPTY_STAINS, own: BOOK, work: { label: 'Case 7', restoration: 'Restoration 21', target: 'Tooth 11', zones: job, plan, ticks: [0], passes: [] } } });
  problem.value = null;
  await vi.waitFor(() => expect(doc.value.photo).toBeNull());
});

describe('a fired pass', () => {
  it('is refused without a photo that shows a restoration, and says why', async () => {
    expect(passes.notFired.value).toBe('No photo is open.');
    await show('teeth.jpg', { card: { outline: square(0, 0) }, regions: [{ id: 't', kind: 'tooth', name: '11', outline: square(600, 900) }] });
    expect(passes.notFired.value).toBe('No restoration is marked and read in the open photo.');
    await passes.recordPass();
    expect(work.value!.passes).toEqual([]);
  });

  it('is taken from the open photo, looked back at, put into the book, all in one step of undo', async () => {
    await show('fired.jpg', sceneWith(900));
    expect(passes.notFired.value).toBe('');
    await passes.recordPass();
    const [kept] = work.value!.passes;
    expect(kept).toMatchObject({ photo: 'fired.jpg', carried: true, pass: { foundation: true } });
    expect(kept!.pass.zones.map((z) => z.zone)).toEqual(['cervical', 'middle']);
    expect(status.value).toBe(kept!.review.words);
    expect(doc.value.stains.own.swatches).toHaveLength(4);
    expect(doc.value.stains.own.swatches.at(-1)!.note).toBe('Case 7, pass 1, middle');
    expect([passes.isLearned(kept!), passes.passOpen.value]).toEqual([true, false]);
    // Once recorded it is not recorded again.
    await passes.recordPass();
    expect(work.value!.passes).toHaveLength(1);
    expect(undoLabel.value).toBe('record pass 1');
    undoStep();
    expect([work.value!.passes.length, doc.value.stains.own.swatches.length]).toEqual([0, 2]);
    redoStep();
    expect([work.value!.passes.length, doc.value.stains.own.swatches.length]).toEqual([1, 4]);
  });

  it('is left out of the strengths and taken in again', async () => {
    await show('fired.jpg', sceneWith(900));
    await passes.recordPass();
    const kept = work.value!.passes[0]!;
    passes.learnFrom(kept, 1, false);
    expect([doc.value.stains.own.swatches.length, passes.isLearned(kept), work.value!.passes.length]).toEqual([2, false, 1]);
    passes.learnFrom(kept, 1, true);
    expect(doc.value.stains.own.swatches).toHaveLength(4);
    undoStep();
    expect(passes.isLearned(kept)).toBe(false);
  });

  it('is the start of the next, which a photo of the same result does not answer', async () => {
    await show('fired.jpg', sceneWith(900));
    await passes.recordPass();
    const kept = work.value!.passes[0]!;
    await passes.planNextPass();
    expect(work.value!.zones.map((z) => z.from)).toEqual(kept.pass.zones.map((z) => z.got));
    expect([work.value!.ticks, work.value!.passes.length, passes.passOpen.value]).toEqual([[], 1, work.value!.plan.firings > 0]);
    expect(passes.notFired.value).toBe('The open photo is the one that the plan started from. Open the new one.');
    // It was planned from, with something to paint or not: only undo takes it back.
    expect(passes.nextPlanned.value).toBe(true);
    passes.takePassBack();
    expect(work.value!.passes).toHaveLength(1);
    undoStep();
    passes.takePassBack();
    expect([work.value!.passes.length, doc.value.stains.own.swatches.length]).toEqual([0, 2]);
  });

  it('counts coats as they were painted', async () => {
    await show('fired.jpg', sceneWith(900));
    const [first] = paintedOf(work.value!.plan);
    typeCoats('cervical', first!.paint.coats + 1);
    expect(coatsOf(first!)).toBe(first!.paint.coats + 1);
    await passes.recordPass();
    const [c, m] = work.value!.passes[0]!.pass.zones;
    expect([c!.paint.coats, m!.paint.coats]).toEqual([first!.paint.coats + 1, paintedOf(work.value!.plan)[1]!.paint.coats]);
    // One coat more takes value away: so does what is predicted.
    expect(c!.predicted[0]).toBeLessThan(m!.predicted[0] - 0.5);
    expect(work.value!.passes[0]!.swatches[0]!.coats).toBe(first!.paint.coats + 1);
  });

  it('teaches the stains on what the foundation made of the crown', async () => {
    const glazed: SwatchBook = { ...BOOK, stains: [{ name: 'glaze', glaze: true }], swatches: [...BOOK.swatches, { stain: 'glaze', coats: 1, base: [78, 0, 15], after: [77.5, 0, 15.5] }] };
    startWith({ stains: { ...doc.value.stains, own: glazed } });
    await show('fired.jpg', sceneWith(900));
    await passes.recordPass();
    const [{ pass, swatches }] = work.value!.passes as [NonNullable<typeof work.value>['passes'][number]];
    swatches.forEach(({ base }, i) => pass.zones[i]!.before.forEach((v, axis) => expect(base[axis]! - v).toBeCloseTo([-0.5, 0, 0.5][axis]!, 9)));
  });

  it('of what may be another tooth teaches nothing, and says so, until the user wants it', async () => {
    // The target reads 7 L* lighter than when the plan was made.
    await show('wrong.jpg', sceneWith(900, 1300));
    expect(isStrange(passes.seenDrift.value)).toBe(true);
    await passes.recordPass();
    const kept = work.value!.passes[0]!;
    expect([isStrange(kept.drift), kept.swatches.length, doc.value.stains.own.swatches.length, passes.isLearned(kept)]).toEqual([true, 2, 2, false]);
    expect(status.value).toContain('The target read differently from when the plan was made');
    passes.learnFrom(kept, 1, true);
    expect(doc.value.stains.own.swatches).toHaveLength(4);
  });

  it('is fired until the next is planned, and takes named outlines', async () => {
    await show('fired.jpg', sceneWith(900));
    expect([passes.passFired.value, passes.seenNames.value]).toEqual([false, { restoration: 'Restoration 21', target: 'Tooth 11' }]);
    await passes.recordPass();
    expect([passes.passFired.value, work.value!.ticks]).toEqual([true, [0]]);
    await passes.planNextPass();
    expect(passes.passFired.value).toBe(false);
  });

  it('says what went wrong and changes nothing', async () => {
    await show('fired.jpg', sceneWith(900));
    const spy = vi.spyOn(desk.stains, 'reviewPass').mockRejectedValue(new Error('not there yet'));
    await passes.recordPass();
    expect(problem.value).toMatchObject({ title: 'The pass could not be looked back at.', text: 'not there yet' });
    expect([work.value!.passes.length, doc.value.stains.own.swatches.length]).toEqual([0, 2]);
    spy.mockRestore();
  });
});

describe('a look before firing', () => {
  it('is kept with the job, forgotten when asked, and goes with the pass as the unfired reading', async () => {
    await show('wet.jpg', sceneWith(1000));
    await unfired.lookUnfired();
    expect(work.value!.unfired).toMatchObject({ photo: 'wet.jpg', look: { directions_only: true } });
    expect(status.value).toContain('Directions only: 0 pairs');
    unfired.forgetUnfired();
    expect(unfired.unfiredLook.value).toBeNull();
    undoStep();
    expect(unfired.unfiredLook.value?.photo).toBe('wet.jpg');

    await show('fired.jpg', sceneWith(900));
    await passes.recordPass();
    const swatch = doc.value.stains.own.swatches.at(-1)!;
    // Both photos read the target alike: the unfired colour stays what it was.
    expect(swatch.unfired![0]).toBeCloseTo(swatch.after[0] + 1, 6);
    expect(work.value!.unfired).toBeNull();
    undoStep();
    expect(work.value!.unfired).not.toBeNull();
  });
});

describe('a look before firing that may show another tooth', () => {
  it('says how far its target is off, and teaches no shift', async () => {
    await show('wrong.jpg', sceneWith(1000, 1300));
    await unfired.lookUnfired();
    expect(isStrange(unfired.lookDrift.value)).toBe(true);
    await show('fired.jpg', sceneWith(900));
    await passes.recordPass();
    expect(doc.value.stains.own.swatches.slice(2).map((s) => s.unfired)).toEqual([undefined, undefined]);
  });
});

describe('a work from a file', () => {
  const file = (value: unknown) => new Blob([typeof value === 'string' ? value : JSON.stringify(value)]);

  it('comes back as it was saved, with its passes, in one step of undo', async () => {
    await show('wet.jpg', sceneWith(1000));
    await unfired.lookUnfired();
    await show('fired.jpg', sceneWith(900));
    await passes.recordPass();
    await passes.planNextPass();
    await show('wet.jpg', sceneWith(1000));
    await unfired.lookUnfired();
    const saved = work.value!;
    const text = workToJson(saved);
    change('close', { stains: { ...doc.value.stains, work: null } });
    await openWork(file(text), 'w.work.json');
    expect([work.value, mode.value, problem.value]).toEqual([saved, 'plan', null]);
    expect(undoLabel.value).toBe('open w.work.json');
    undoStep();
    expect(work.value).toBeNull();
  });

  const sound = () => JSON.parse(workToJson(work.value!)) as Record<string, any>;
  it.each([
    ['not JSON', () => '{'],
    ['a scene', () => ({ card: null, regions: [] })],
    ['a book', () => BOOK],
    ['without a plan', () => ({ ...sound(), plan: undefined })],
    ['with a step that is none', () => ({ ...sound(), plan: { ...sound()['plan'], steps: [{ title: 'Paint' }] } })],
    ['with a colour that is none', () => ({ ...sound(), zones: [{ ...sound()['zones'][0], from: [70, 'x', 15] }] })],
    ['with a tick on no step', () => ({ ...sound(), ticks: [99] })],
    ['with a pass that is none', () => ({ ...sound(), passes: [{}] })],
    ['without thirds', () => ({ ...sound(), zones: [] })],
  ])('is refused in words when it is %s, and what was open stays', async (_, made) => {
    const before = doc.value;
    await openWork(file(made()), 'x.json');
    expect(problem.value).toMatchObject({ title: 'x.json is not a work that can be opened. Nothing was changed.', text: expect.stringMatching(/^(It is|A colour)/) });
    expect(doc.value).toBe(before);
  });
});
