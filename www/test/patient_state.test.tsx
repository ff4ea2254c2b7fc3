import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Scene, SwatchBook } from '../src/engine/types';
import { FakeWorker } from './fake_worker';
import { square } from './squares';
import { elementsOf } from './vnodes';

const worker = new FakeWorker();
vi.mock('../src/engine/instance', async () => {
  const { Desk } = await import('../src/engine/desk');
  return { desk: new Desk(() => worker) };
});
const store = new Map<string, string>();
vi.stubGlobal('localStorage', { getItem: (k: string) => store.get(k) ?? null, setItem: (k: string, v: string) => void store.set(k, v) });

const { desk } = await import('../src/engine/instance');
const { change, startWith } = await import('../src/state/desk');
const { EMPTY_DOC } = await import('../src/state/doc');
const { reading, startReading } = await import('../src/state/reading');
const { startPictures, pictures } = await import('../src/state/sheet');
const { problem } = await import('../src/state/status');
const { EMPTY_STAINS } = await import('../src/state/stains/stains_doc');
const { startPlanning, proposed } = await import('../src/state/stains/planning');
const { mode } = await import('../src/state/ui');
const { openPatient, patientOpen, patientPossible, patientWhyNot } = await import('../src/state/patient/patient');
const { inventedPlan, pair, patientPlan, said } = await import('../src/state/patient/facts');
const { look, lookAt, looks, painting, shown, startLooks } = await import('../src/state/patient/looks');
const { ask, asking, held, hold, HOLD_MS, leave, letGo } = await import('../src/state/patient/leaving');
const { greyOf } = await import('../src/state/patient/grey');
const { callIt, thing } = await import('../src/state/patient/thing');
const { Choices, Slide } = await import('../src/views/patient/choices');
const { words } = await import('../src/words');

const SCENE: Scene = {
  card: { outline: square(0, 0) },
  regions: [
    { id: 't', kind: 'tooth', name: '11', outline: square(300, 400, 100) },
    { id: 'r', kind: 'restoration', name: '21', outline: square(400, 400, 100) },
  ],
};
const BOOK: SwatchBook = { demo: false, stains: [], swatches: [{ stain: 'umbra', coats: 1, base: [78, 1, 16], after: [76.5, 1.6, 17.5] }] };
const open = async (scene: Scene = SCENE) => change('open', { photo: await desk.open(new Blob([new Uint8Array([0xff])]), 'a.jpg', { tooLarge: '' }), scene });
const read = (n = 2) => vi.waitFor(() => expect(reading.value?.report.readings).toHaveLength(n));
const planned = async () => {
  mode.value = 'plan';
  await vi.waitFor(() => expect(proposed.value).not.toBeNull());
};

const stops = [startReading(), startPictures(), startPlanning()];
void stops;
beforeEach(() => {
  startWith({ ...EMPTY_DOC, stains: EMPTY_STAINS });
  [mode.value, problem.value, patientOpen.value] = ['reading', null, false];
  lookAt('now');
});

describe('the view for the patient', () => {
  it('says in a sentence why it cannot be shown', async () => {
    expect([patientPossible.value, patientWhyNot.value]).toEqual([false, words.plan.refused.texts['no-photo']]);
    openPatient();
    expect([patientOpen.value, problem.value]).toEqual([false, { title: words.patient.notYet, text: words.plan.refused.texts['no-photo'], advice: '' }]);
    await open({ card: { outline: square(0, 0) }, regions: [SCENE.regions[0]!] });
    await read(1);
    expect(patientWhyNot.value).toBe(words.plan.refused.texts['no-restoration']);
  });

  it('is possible with two readings that can be trusted, and not with one that cannot', async () => {
    await open();
    await read();
    expect([patientPossible.value, patientWhyNot.value]).toEqual([true, '']);
    openPatient();
    expect(patientOpen.value).toBe(true);
    const { report } = reading.value!;
    const check = (region?: string) => ({ code: 'blurred' as never, severity: 'retake' as const, text: 'Blurred.', remedy: '', ...(region && { region }) });
    for (const region of [undefined, 'r', 't']) {
      reading.value = { ...reading.value!, report: { ...report, checks: [check(region)] } };
      expect([patientPossible.value, patientWhyNot.value]).toEqual([false, 'Blurred.']);
    }
  });

  it('speaks of the two that are compared, and of the plan that is about them', async () => {
    await open();
    await read();
    expect([pair.value?.target.id, pair.value?.restoration.id]).toEqual(['t', 'r']);
    expect(said.value).toMatchObject({ beside: 'neighbour', partly: false, remedy: null, difference: { kind: 'differs' } });
    const whole = reading.value!;
    reading.value = { ...whole, report: { ...whole.report, advice: whole.report.advice.map((a) => ({ ...a, zones: a.zones.slice(1) })) } };
    expect(said.value?.partly).toBe(true);
    reading.value = whole;
    change('book', { stains: { ...EMPTY_STAINS, own: BOOK } });
    expect(patientPlan.value).toBeNull();
    await planned();
    expect([patientPlan.value === proposed.value?.plan, inventedPlan.value]).toEqual([true, false]);
    expect(said.value?.remedy).not.toBeNull();
    // Another target, or another colour now: the plan is about something else.
    mode.value = 'reading';
    for (const part of ['from', 'to'] as const) {
      const plan = proposed.value!.plan;
      const was = plan.zones[1]!;
      plan.zones[1] = { ...was, [part]: [1, 2, 3] };
      reading.value = { ...reading.value! };
      expect([patientPlan.value, said.value?.remedy]).toEqual([null, null]);
      plan.zones[1] = was;
    }
  });

  it('makes nothing of invented stains but an example', async () => {
    await open();
    await read();
    change('book', { stains: { ...EMPTY_STAINS, lent: { ...BOOK, demo: true } } });
    await planned();
    expect([patientPlan.value !== null, inventedPlan.value, said.value?.remedy]).toEqual([true, true, null]);
    change('mixed', { stains: { ...EMPTY_STAINS, own: { ...BOOK, swatches: BOOK.swatches.map((s) => ({ ...s, note: words.swatches.demoNote })) } } });
    await planned();
    expect([inventedPlan.value, said.value?.remedy]).toEqual([true, null]);
  });

  it('calls a sample a sample', async () => {
    await open({ ...SCENE, regions: [...SCENE.regions, { id: 's', kind: 'tab', name: 'A2', outline: square(500, 400, 100) }] });
    change('target', { target: 's' });
    await read(3);
    const found = reading.value!;
    reading.value = { doc: { ...found.doc, target: 's' }, report: { ...found.report, advice: found.report.advice.map((a) => ({ ...a, target: 's' })) } };
    expect([pair.value?.target.id, said.value?.beside]).toEqual(['s', 'sample']);
  });
});

describe('how the pictures are looked at', () => {
  const pressed = () => elementsOf(<Choices />).filter((e) => e.type === 'button').map((e) => [e.text, e.props['aria-pressed']]);

  it('is as it is, in brightness only, and after painting once there is a picture of that', async () => {
    await open();
    await read();
    await vi.waitFor(() => expect(pictures.value.size).toBe(2));
    const stop = startLooks();
    expect([looks.value, shown.value?.target]).toEqual([['now', 'grey'], pictures.value.get('t')]);
    expect(elementsOf(<Slide />)).toEqual([]);
    lookAt('painted');
    expect(look.value).toBe('now');
    lookAt('grey');
    expect(pressed()).toEqual([['As it is', false], ['Brightness only', true]]);
    expect(shown.value?.restoration).toEqual(greyOf(pictures.value.get('r')!));
    expect(shown.value?.restoration).not.toBe(pictures.value.get('r'));
    change('book', { stains: { ...EMPTY_STAINS, own: BOOK } });
    await planned();
    await vi.waitFor(() => expect(looks.value).toEqual(['now', 'grey', 'painted']));
    expect(pressed()[2]).toEqual(['After painting', false]);
    const slider = () => elementsOf(<Slide />).find((e) => e.type === 'input')!.props;
    expect([slider()['value'], slider()['aria-valuetext']]).toEqual([0, 'as it is now']);
    (slider()['onInput'] as (e: unknown) => void)({ currentTarget: { valueAsNumber: 50 } });
    expect([look.value, painting.value, slider()['aria-valuetext']]).toEqual(['painted', 50, 'half painted']);
    // The word means all the way.
    lookAt('painted');
    expect(painting.value).toBe(100);
    stop();
  });

  it('marks a calculated picture with invented stains as an example', async () => {
    await open();
    await read();
    change('book', { stains: { ...EMPTY_STAINS, lent: { ...BOOK, demo: true } } });
    await planned();
    const stop = startLooks();
    await vi.waitFor(() => expect(pressed().map(([text]) => text)).toEqual(['As it is', 'Brightness only', words.patient.example]));
    stop();
  });
});

describe('brightness only', () => {
  it('is the grey of the same luminance, with the outline as it was', () => {
    const of = (...rgba: number[]) => [...greyOf({ width: 1, height: 1, rgba: Uint8Array.from(rgba) }).rgba];
    for (const v of [0, 1, 10, 118, 200, 255]) expect(of(v, v, v, 9)).toEqual([v, v, v, 9]);
    // Luminance of the primaries: 0.2126, 0.7152, 0.0722, as codes of sRGB.
    expect([of(255, 0, 0, 255)[0], of(0, 255, 0, 255)[0], of(0, 0, 255, 255)[0]]).toEqual([127, 220, 76]);
    expect(of(215, 190, 150, 255)[0]).toBe(193);
  });
});

describe('the way back', () => {
  beforeEach(() => {
    vi.useFakeTimers();
    patientOpen.value = true;
  });
  afterEach(() => {
    leave();
    vi.useRealTimers();
  });

  it('is taken when held for the whole time, and only then', () => {
    hold();
    expect(held.value).toBe(1);
    vi.advanceTimersByTime(HOLD_MS - 1);
    hold();
    expect([held.value, patientOpen.value]).toEqual([2, true]);
    vi.advanceTimersByTime(1);
    expect([held.value, patientOpen.value, asking.value]).toEqual([0, false, false]);
  });

  it('asks after a short press, and stays until the answer', () => {
    hold();
    vi.advanceTimersByTime(HOLD_MS / 2);
    ask();
    vi.advanceTimersByTime(HOLD_MS * 2);
    expect([held.value, patientOpen.value, asking.value]).toEqual([0, true, true]);
    leave();
    expect([patientOpen.value, asking.value]).toEqual([false, false]);
  });

  it('forgets a hold that slipped off', () => {
    hold();
    letGo();
    vi.advanceTimersByTime(HOLD_MS * 2);
    expect([patientOpen.value, asking.value]).toEqual([true, false]);
  });
});

describe('what it is called', () => {
  it('is a crown until the clinician says otherwise, and is remembered', async () => {
    expect(thing.value).toBe('crown');
    callIt('veneer');
    vi.resetModules();
    expect((await import('../src/state/patient/thing')).thing.value).toBe('veneer');
    store.set('tabside.patient.thing', 'bridge');
    vi.resetModules();
    expect((await import('../src/state/patient/thing')).thing.value).toBe('crown');
  });

  it('does without a memory', () => {
    vi.stubGlobal('localStorage', { setItem: () => { throw new Error('full'); } });
    callIt('crown');
    expect(thing.value).toBe('crown');
  });
});
