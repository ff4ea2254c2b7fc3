import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Scene } from '../src/engine/types';
import { square } from './squares';

vi.mock('../src/engine/instance', () => import('./fake_desk'));

const { desk } = await import('../src/engine/instance');
const { change, doc, startWith, undoStep } = await import('../src/state/desk');
const { EMPTY_DOC } = await import('../src/state/doc');
const { reading, startReading } = await import('../src/state/reading');
const { problem, status } = await import('../src/state/status');
const { EMPTY_STAINS } = await import('../src/state/stains/stains_doc');
const { choiceOf, chosen, exercise, options, sideOf, typed, typedNow, TYPED } = await import('../src/state/practice/sides');
const { attemptsToJson } = await import('../src/state/practice/exercise_file');
const { lastAttempt } = await import('../src/state/practice/exercise_model');
const practice = await import('../src/state/stains/practice');

const scene = (shift: number): Scene => ({
  card: { outline: square(0, 0) },
  regions: [
    { id: 'n', kind: 'tooth', name: '11', outline: square(800, 400) },
    { id: 'a', kind: 'tab', name: 'A1', outline: square(600 - shift, 100) },
    { id: 'b', kind: 'tab', name: 'A3', outline: square(300, 900) },
  ],
});

async function show(name: string, next: Scene): Promise<void> {
  // Bytes tell photos apart, not names.
  const bytes = [0xff, ...new TextEncoder().encode(name.replace('copy of ', ''))];
  change(`open ${name}`, { photo: await desk.open(new Blob([new Uint8Array(bytes)]), name, { tooLarge: '' }), scene: next });
  await vi.waitFor(() => expect(reading.value?.doc).toMatchObject({ photo: { name } }));
}

startReading();

beforeEach(() => {
  startWith({ ...EMPTY_DOC, stains: { ...EMPTY_STAINS, own: { stains: [], swatches: [{ stain: 'ochre', coats: 1, base: [72, 1, 17], after: [70.5, 1.5, 20] }] } } });
  [chosen.value, typed.value, problem.value] = [{}, {}, null];
});

describe('an exercise', () => {
  it('offers what is read in the photo, tabs first, and takes the first two', async () => {
    expect([options.value, choiceOf('base')]).toEqual([[], TYPED]);
    await show('tabs.jpg', scene(0));
    expect(options.value.map((o) => o.name)).toEqual(['Tab A1', 'Tab A3', 'Tooth 11']);
    expect([choiceOf('base'), choiceOf('target')]).toEqual(['a', 'b']);
    chosen.value = { target: 'n' };
    expect(sideOf('target')!.name).toBe('Tooth 11');
  });

  it('is planned, painted, scored from another photo, and every step undone', async () => {
    await show('tabs.jpg', scene(0));
    practice.sayWho('Kim');
    await practice.planExercise();
    expect(exercise.value.task).toMatchObject({ base: { name: 'Tab A1' }, target: { name: 'Tab A3' }, plan: { firings: expect.any(Number) } });
    expect(practice.notPainted.value).toContain('This is the photo in which the tab was read');

    await show('result.jpg', scene(200));
    expect([choiceOf('got'), choiceOf('now'), practice.notPainted.value]).toEqual(['a', 'b', '']);
    await practice.scoreResult();
    const [attempt] = exercise.value.attempts;
    expect(attempt).toMatchObject({ who: 'Kim', base: 'Tab A1', target: 'Tab A3', score: { words: expect.stringContaining('half a coat more') } });
    expect(attempt!.request.zones).toHaveLength(3);
    expect(status.value).toBe(attempt!.score.words);

    practice.removeAttempt(0);
    expect(exercise.value.attempts).toEqual([]);
    undoStep();
    expect(exercise.value.attempts).toEqual([attempt]);
    undoStep();
    expect([exercise.value.attempts.length, exercise.value.task !== null]).toEqual([0, true]);
  });

  it('can be typed, and stays what it was typed as', async () => {
    typed.value = { base: { cervical: ['', '', ''], middle: ['76', '0', '15'], incisal: ['', '', ''] }, target: { cervical: ['', '', ''], middle: ['73', '1', '20'], incisal: ['', '', ''] } };
    await practice.planExercise();
    expect(exercise.value.task!.plan!.zones.map((z) => z.zone)).toEqual(['middle']);
    await show('result.jpg', scene(0));
    expect([choiceOf('now'), sideOf('now')!.spots.middle!.lab]).toEqual([TYPED, [73, 1, 20]]);
    await practice.scoreResult();
    expect(exercise.value.attempts[0]!.request.zones).toMatchObject([{ zone: 'middle', base: [76, 0, 15], target: [73, 1, 20], doubt: 0.5 }]);
  });

  it('paints tabs: a tooth is the base by choice only', async () => {
    await show('teeth.jpg', { ...scene(0), regions: scene(0).regions.filter((r) => r.kind === 'tooth') });
    expect([options.value.map((o) => o.isTab), choiceOf('base'), choiceOf('target')]).toEqual([[false], TYPED, 'n']);
    await show('one-tab.jpg', { ...scene(0), regions: scene(0).regions.filter((r) => r.id !== 'b') });
    expect([choiceOf('base'), choiceOf('target')]).toEqual(['a', 'n']);
  });

  it('takes no outline of the photo of the base as its result, under any name and however it lies', async () => {
    await show('tabs.jpg', scene(0));
    await practice.planExercise();
    await show('copy of tabs.jpg', scene(200));
    chosen.value = { got: 'n' };
    expect(practice.notPainted.value).toContain('This is the photo in which the tab was read');
    await practice.scoreResult();
    expect([practice.toScore.value, exercise.value.attempts]).toEqual([null, []]);
  });

  it('takes a typed result, against the target as it was read', async () => {
    await show('tabs.jpg', scene(0));
    await practice.planExercise();
    [chosen.value, typed.value] = [{ got: TYPED, now: TYPED }, { got: { cervical: ['', '', ''], middle: ['70', '1', '20'], incisal: ['', '', ''] } }];
    const { base, target } = exercise.value.task!;
    expect(typedNow('now').middle.map(Number)).toEqual(target.spots.middle!.lab.map((v) => expect.closeTo(v, 2)));
    await practice.scoreResult();
    expect(exercise.value.attempts[0]!.request.zones).toMatchObject([{ zone: 'middle', base: base.spots.middle!.lab.map((v) => expect.closeTo(v, 9)), got: [70, 1, 20], target: target.spots.middle!.lab, doubt: 0.5 }]);
  });

  it('shows no score of the exercise before', async () => {
    await show('tabs.jpg', scene(0));
    await practice.planExercise();
    await show('result.jpg', scene(200));
    await practice.scoreResult();
    expect(lastAttempt(exercise.value)).toBe(exercise.value.attempts[0]);
    // Exercises are told apart by their time.
    await new Promise((done) => setTimeout(done, 5));
    await practice.planExercise();
    expect([exercise.value.attempts.length, lastAttempt(exercise.value)]).toEqual([1, undefined]);
    undoStep();
    expect(lastAttempt(exercise.value)).toBe(exercise.value.attempts[0]);
  });

  it('needs no stains: it is scored without a plan', async () => {
    startWith(EMPTY_DOC);
    await show('tabs.jpg', scene(0));
    await practice.planExercise();
    expect(exercise.value.task!.plan).toBeNull();
    await show('result.jpg', scene(150));
    await practice.scoreResult();
    expect(exercise.value.attempts).toHaveLength(1);
  });
});

describe('attempts from a file', () => {
  const file = (text: string) => new Blob([text]);

  it('are added once, undone together, and refused when they are none', async () => {
    await show('tabs.jpg', scene(0));
    await practice.planExercise();
    await show('result.jpg', scene(200));
    await practice.scoreResult();
    const text = attemptsToJson([...exercise.value.attempts, { ...exercise.value.attempts[0]!, who: 'Ana', at: '2026-01-05T08:00:00.000Z' }]);
    await practice.addAttempts(file(text), 'a.json');
    expect(exercise.value.attempts.map((a) => a.who)).toEqual(['Ana', '']);
    await practice.addAttempts(file(text), 'a.json');
    expect([exercise.value.attempts.length, status.value]).toEqual([2, 'The file holds no attempt that is not here already.']);
    undoStep();
    expect(exercise.value.attempts).toHaveLength(1);
    await practice.addAttempts(file('{"attempts":[{}]}'), 'b.json');
    expect(problem.value).toMatchObject({ title: expect.stringContaining('b.json holds no attempts'), text: expect.stringContaining('attempts') });
    expect(doc.value.stains.practice!.attempts).toHaveLength(1);
  });
});
