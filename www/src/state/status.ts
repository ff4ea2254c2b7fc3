/** What the page says: a line for the status region, problems with what to do, and what is busy. */
import { computed, signal } from '@preact/signals';
import type { Phase } from '../worker/protocol';

/** Read out by screen readers and shown for a moment. */
export const status = signal('');

export function say(text: string): void {
  status.value = text;
}

/** Something worth seeing that needs no answer; perhaps with something that can be done about it. */
export interface Told {
  readonly text: string;
  readonly act?: { readonly label: string; readonly run: () => void };
}

/** Shown for a while, or until it is closed. */
export const told = signal<Told | null>(null);
const TOLD_MS = 20_000;

export function tell(text: string, act?: Told['act']): void {
  const mine: Told = { text, ...(act && { act }) };
  told.value = mine;
  setTimeout(() => told.value === mine && (told.value = null), TOLD_MS);
}

export interface Problem {
  title: string;
  text: string;
  advice: string;
  /** The same may go well once more. */
  again?: boolean;
}

/** The problem on show; what was open stays open beside it. */
export const problem = signal<Problem | null>(null);

export interface Busy {
  label: string;
  phase: Phase | null;
  since: number;
  cancel: () => void;
}

const running = signal<readonly Busy[]>([]);
/** The newest of what runs; what was begun before it shows again when it is done. */
export const busy = computed<Busy | null>(() => running.value.at(-1) ?? null);

/** Runs a task that can be cancelled and shows that it runs. Gives `null` when cancelled. */
export async function whileBusy<T>(
  label: string,
  task: (signal: AbortSignal, onPhase: (phase: Phase) => void) => Promise<T>,
): Promise<T | null> {
  const abort = new AbortController();
  let mine: Busy = { label, phase: null, since: performance.now(), cancel: () => abort.abort() };
  running.value = [...running.value, mine];
  const replace = (next: Busy | null) => {
    running.value = running.value.flatMap((b) => (b !== mine ? [b] : next ? [next] : []));
    if (next) mine = next;
  };
  try {
    return await task(abort.signal, (phase) => replace({ ...mine, phase }));
  } catch (error) {
    if (abort.signal.aborted) return null;
    throw error;
  } finally {
    replace(null);
  }
}
