/** The way to the kept cases from the first screen, which waits for them only when there are some, and not for long. */
import { casesKept } from './safe';

/** Less than a blink: what is there by then needs no start page before it. */
const PATIENCE_MS = 250;

type Restore = typeof import('./restore');
let coming: Promise<Restore> | null = null;

const fetched = (): Promise<Restore> => (coming ??= import('./restore'));

/** Fetches what opens the last case, should there be one. */
export function beginCases(): void {
  if (casesKept()) void fetched().catch(() => {});
}

/** The desk as it was left. Without a kept case it is only begun when `waitMs` is no matter. */
export async function restoreCases(waitMs = PATIENCE_MS): Promise<void> {
  if (!coming && waitMs !== Infinity) return;
  const done = fetched().then(({ startCases }) => startCases());
  const late = waitMs === Infinity ? [] : [new Promise<void>((go) => setTimeout(go, waitMs))];
  await Promise.race([done, ...late]).catch(() => {});
}
