/** Undo and redo as plain data. A step is a whole document: scenes are small. */

export interface Step<T> {
  readonly value: T;
  /** What led from the step before to this one, in words. */
  readonly label: string;
}

export interface History<T> {
  readonly past: readonly Step<T>[];
  readonly present: Step<T>;
  readonly future: readonly Step<T>[];
  /** Changes with the same key in a row are one step: a drag, a run of arrow keys. */
  readonly mergeKey: string | null;
}

export const MAX_STEPS = 200;

export const startHistory = <T>(value: T): History<T> => ({
  past: [],
  present: { value, label: '' },
  future: [],
  mergeKey: null,
});

export function push<T>(history: History<T>, value: T, label: string, mergeKey: string | null = null): History<T> {
  const present = { value, label };
  if (mergeKey !== null && mergeKey === history.mergeKey) return { ...history, present, future: [] };
  return { past: [...history.past, history.present].slice(-MAX_STEPS), present, future: [], mergeKey };
}

/** Ends a run of changes that would be merged. */
export const seal = <T>(history: History<T>): History<T> => ({ ...history, mergeKey: null });

export function undo<T>(history: History<T>): History<T> {
  const previous = history.past.at(-1);
  if (!previous) return history;
  return {
    past: history.past.slice(0, -1),
    present: previous,
    future: [history.present, ...history.future],
    mergeKey: null,
  };
}

export function redo<T>(history: History<T>): History<T> {
  const [next, ...future] = history.future;
  if (!next) return history;
  return { past: [...history.past, history.present], present: next, future, mergeKey: null };
}

/** Every value that undo or redo can bring back, the present first. */
export const reachable = <T>({ past, present, future }: History<T>): T[] =>
  [present, ...past, ...future].map((step) => step.value);

/** The present as another value by the same step: what is only looked at otherwise is no change. */
export const inPlace = <T>(history: History<T>, value: T): History<T> => ({ ...seal(history), present: { ...history.present, value } });

/** Every value, past and future too, as another. */
export function mapped<T>({ past, present, future, mergeKey }: History<T>, as: (value: T) => T): History<T> {
  const step = (s: Step<T>): Step<T> => ({ ...s, value: as(s.value) });
  return { past: past.map(step), present: step(present), future: future.map(step), mergeKey };
}
