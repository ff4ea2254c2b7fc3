/** The strengths that belong to the book in use: asked for on every change, only the newest kept. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { desk } from '../../engine/instance';
import type { FittedBook, SwatchBook } from '../../engine/types';
import { words } from '../../words';
import { latestOnly } from '../latest';
import { describe } from '../problems';
import type { Problem } from '../status';
import { mode } from '../ui';
import { book } from './work';

const fit = signal<{ book: SwatchBook; fitted: FittedBook } | null>(null);
/** Why there are no strengths. */
export const fitProblem = signal<Problem | null>(null);

/** Of the book as it stands; `null` until they are there. */
export const fitted = computed(() => (fit.value?.book === book.value ? fit.value.fitted : null));

const run = latestOnly<SwatchBook>(async (wanted) => {
  try {
    const found = await desk.stains.fit(wanted);
    if (book.value !== wanted) return;
    fit.value = { book: wanted, fitted: found };
    fitProblem.value = null;
  } catch (error) {
    if (book.value !== wanted) return;
    fit.value = null;
    fitProblem.value = { title: words.errors.fitFailed, ...describe(error) };
  }
});

export function startFitting(): () => void {
  return effect(() => {
    const wanted = book.value;
    // Nobody asks while a photo is read.
    if (mode.value === 'reading') return;
    // A book in which nothing was ever painted is no failure.
    if (wanted.swatches.length === 0) return void (fitProblem.value = null);
    if (fit.peek()?.book !== wanted) untracked(() => run(wanted));
  });
}
