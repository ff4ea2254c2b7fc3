/**
 * Undo after any sequence restores the document exactly, and redo brings it back: random sequences of
 * everything that can be undone, with undo and redo in between, against a list of what was there.
 */
import { effect } from '@preact/signals';
import { expect, it, vi } from 'vitest';
import type { Doc } from '../src/state/doc';

vi.mock('../src/engine/instance', () => import('./fake_desk'));
vi.stubGlobal('localStorage', { getItem: () => null, setItem: () => {} });

const { doc, redoLabel, redoStep, startWith, undoLabel, undoStep } = await import('../src/state/desk');
const { EMPTY_DOC } = await import('../src/state/doc');
const { searching } = await import('../src/state/find');
const { startReading } = await import('../src/state/reading');
const { busy } = await import('../src/state/status');
const { settle, startTray } = await import('../src/state/tray/reports');
const { openPhotos } = await import('../src/state/tray/laid');
const { diceOf, ON_OUTLINES, pick } = await import('./undo_actions');
const { ON_DESK } = await import('./undo_desk');
const { ON_STAINS } = await import('./undo_stains');

const SEQUENCES = 30;
const ACTIONS = 60;
const ALL = [...ON_OUTLINES, ...ON_DESK, ...ON_STAINS];
const named = (...names: string[]) => names.map((name) => ALL.find((a) => a.name === name)!);
/** What chance alone would hardly bring about comes first, in its order: a job with its passes and an exercise, or a proposal. */
const BEGINNINGS = [
  named('open a photo', 'make the restoration', 'open swatches', 'open a work', 'look before firing', 'forget the look', 'open a photo', 'make the restoration', 'record a pass', 'learn from a pass, or not', 'take a pass back', 'record a pass', 'plan the next pass', 'an exercise', 'open a photo', 'score', 'remove an attempt'),
  named('open a photo', 'yes to the proposal', 'pin a note', 'write a note'),
  [],
];

/** Nobody may change what a step of undo holds: a document is frozen where it is plain data, and its text is kept. */
function frozen<T>(value: T): T {
  if (value !== null && typeof value === 'object' && !Object.isFrozen(value) && (Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype)) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
}
const textOf = (value: Doc): string => JSON.stringify(value, (_, v: unknown) => (v === undefined ? 'undefined' : v));

interface Step {
  readonly value: Doc;
  readonly text: string;
}
const stepOf = (value: Doc): Step => ({ value: frozen(value), text: textOf(value) });

startReading();
startTray();

/** What undo and redo have to bring back, told by what was done alone. */
function oracle() {
  const now = { past: [] as Step[], present: stepOf(doc.peek()), future: [] as Step[], run: null as string | null, heard: 0 };
  let runOf: () => string | null = () => null;
  let look = false;
  let silent = false;
  const stop = effect(() => {
    const value = doc.value;
    if (silent || value === now.present.value) return;
    now.heard++;
    const run = look ? null : runOf();
    if (!look) {
      if (run === null || run !== now.run) now.past.push(now.present);
      now.future = [];
    }
    now.run = run;
    now.present = stepOf(value);
  });
  const walk = (from: Step[], to: Step[], step: () => void, put: (list: Step[], s: Step) => void, take: (list: Step[]) => Step | undefined) => {
    silent = true;
    step();
    silent = false;
    const target = take(from);
    if (target) {
      put(to, now.present);
      now.present = target;
      now.run = null;
    }
    expect(doc.value).toBe(now.present.value);
    expect(textOf(doc.value)).toBe(now.present.text);
    expect([undoLabel.value !== null, redoLabel.value !== null]).toEqual([now.past.length > 0, now.future.length > 0]);
  };
  return {
    now,
    stop,
    doing: (run: (() => string | null) | undefined, isLook: boolean) => ([runOf, look] = [run ?? (() => null), isLook]),
    undo: () => walk(now.past, now.future, undoStep, (list, s) => list.unshift(s), (list) => list.pop()),
    redo: () => walk(now.future, now.past, redoStep, (list, s) => list.push(s), (list) => list.shift()),
  };
}

async function atRest(): Promise<void> {
  do await new Promise((wait) => setTimeout(wait));
  while (busy.value || searching.value);
  // What is empty was so wanted: nothing is looked for behind the user's back.
  openPhotos(doc.peek()).forEach((l) => settle(l.photo));
}

const done = new Map<string, number>();

it.each(Array.from({ length: SEQUENCES }, (_, i) => i + 1))('sequence %i: back to the beginning and to the end again', async (seed) => {
  const dice = diceOf(seed);
  startWith(EMPTY_DOC);
  const o = oracle();
  const begun = o.now.present;
  const beginning = [...BEGINNINGS[seed % BEGINNINGS.length]!];
  for (let i = 0; i < ACTIONS; i++) {
    const chance = dice(12);
    if (chance === 0) o.undo();
    else if (chance === 1) o.redo();
    else {
      const action = beginning.shift() ?? pick(dice, ALL)!;
      const before = o.now.heard;
      o.doing(action.run, action.look ?? false);
      await action.act(dice);
      await atRest();
      if (o.now.heard > before) done.set(action.name, (done.get(action.name) ?? 0) + 1);
    }
    expect(doc.value).toBe(o.now.present.value);
  }
  for (let left = o.now.past.length; left > 0; left--) o.undo();
  expect([undoLabel.value, textOf(doc.value)]).toEqual([null, begun.text]);
  for (let left = o.now.future.length; left > 0; left--) o.redo();
  expect(redoLabel.value).toBeNull();
  o.stop();
});

it('every kind of action was done', () => {
  expect(ALL.filter((a) => !done.has(a.name)).map((a) => a.name)).toEqual([]);
});
