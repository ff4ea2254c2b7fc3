/** What the page says: a line for the status region, problems with what to do, and what is busy. */
import { signal } from '@preact/signals';
import type { Phase } from '../worker/protocol';

/** Read out by screen readers and shown for a moment. */
export const status = signal('');

export function say(text: string): void {
  status.value = text;
}

export interface Problem {
  title: string;
  text: string;
  advice: string;
}

/** The problem on show; what was open stays open beside it. */
export const problem = signal<Problem | null>(null);

export interface Busy {
  label: string;
  phase: Phase | null;
  since: number;
  cancel: () => void;
}

export const busy = signal<Busy | null>(null);

/** Runs a task that can be cancelled and shows that it runs. Gives `null` when cancelled. */
export async function whileBusy<T>(
  label: string,
  task: (signal: AbortSignal, onPhase: (phase: Phase) => void) => Promise<T>,
): Promise<T | null> {
  const abort = new AbortController();
  const mine: Busy = { label, phase: null, since: performance.now(), cancel: () => abort.abort() };
  busy.value = mine;
  let shown = mine;
  const onPhase = (phase: Phase) => {
    if (busy.value === shown) busy.value = shown = { ...shown, phase };
  };
  try {
    return await task(abort.signal, onPhase);
  } catch (error) {
    if (abort.signal.aborted) return null;
    throw error;
  } finally {
    if (busy.value === shown) busy.value = null;
  }
}
