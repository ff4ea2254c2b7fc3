/** The report that belongs to the document: asked for on every change, only the newest kept. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { desk } from '../engine/instance';
import { EngineError, type Report } from '../engine/types';
import { words } from '../words';
import { doc } from './desk';
import { readAlike, type Doc } from './doc';
import { latestOnly } from './latest';
import { describe } from './problems';
import { whileBusy, type Problem } from './status';

export interface Reading {
  doc: Doc;
  report: Report;
}

export const reading = signal<Reading | null>(null);
/** Why there is no reading of the document as it stands. */
export const readingProblem = signal<Problem | null>(null);
/** True from a change until its reading is there. */
export const readingPending = signal(false);

let readLast: Doc | null = null;
/** The document as far as readings depend on it. */
const toRead = computed(() => {
  const now = doc.value;
  return (readLast = readLast && readAlike(readLast, now) ? readLast : now);
});

const read = latestOnly<Doc>(async (wanted) => {
  const { photo } = wanted;
  if (!photo) return;
  try {
    const report = await whileBusy(words.busy.reading, (signal, onPhase) => desk.read({ ...wanted, photo }, { signal, onPhase }));
    if (doc.value.photo !== photo) return;
    reading.value = report && { doc: wanted, report };
    readingProblem.value = report ? null : { title: words.errors.readingCancelled, text: '', advice: words.errors.readAgain, again: true };
  } catch (error) {
    if (toRead.value !== wanted) return;
    reading.value = null;
    readingProblem.value = { title: words.errors.readingFailed, ...describe(error), again: error instanceof EngineError && error.fault !== undefined };
  }
  if (toRead.value === wanted) readingPending.value = false;
});

/** Counts up to have the same read once more: what failed may pass. */
export const readOnceMore = signal(0);

export function startReading(): () => void {
  return effect(() => {
    void readOnceMore.value;
    const wanted = toRead.value;
    if (wanted.photo !== reading.peek()?.doc.photo) reading.value = null;
    readingProblem.value = null;
    if (!wanted.photo) return;
    readingPending.value = true;
    // What is busy is no reason to read again.
    untracked(() => read(wanted));
  });
}
