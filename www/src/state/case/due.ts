/** When the desk is written: soon after a change, not once for each, one writing after another. */

/** When there is quiet for so long, and at the latest after so long. */
const QUIET_MS = 200;
const LATEST_MS = 500;

let since: number | null = null;
let timer: ReturnType<typeof setTimeout> | undefined;
let last: Promise<void> = Promise.resolve();
let running = false;
let write: () => Promise<void> = async () => {};

/** For the keeper alone. */
export const whenDue = (act: () => Promise<void>): void => void (write = act);

/** Something is to be written. */
export function touch(): void {
  const now = performance.now();
  since ??= now;
  clearTimeout(timer);
  timer = setTimeout(() => void writeDue(), Math.max(0, Math.min(QUIET_MS, since + LATEST_MS - now)));
}

export const isDue = (): boolean => since !== null;
export const isRunning = (): boolean => running;
export const stopWaiting = (): void => clearTimeout(timer);

/** At once, if anything is; done when it is, and whatever runs. */
export function writeDue(): Promise<void> {
  clearTimeout(timer);
  return (last = last.then(async () => {
    if (since === null) return;
    since = null;
    running = true;
    try {
      await write();
    } finally {
      running = false;
    }
  }));
}
