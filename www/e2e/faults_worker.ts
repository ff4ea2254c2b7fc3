/** Ends a worker of the page without a word, as browsers do that are short of memory. */
import type { Page } from 'playwright-core';

interface Ending {
  call: string;
  times: number;
  ended: number;
}

/** Before the page's own scripts: so many workers are ended just after they were asked for `call`. */
function keepWorkers(): void {
  const ending: Ending = { call: '', times: 0, ended: 0 };
  Object.assign(window, { ending });
  window.Worker = class extends Worker {
    override postMessage(message: { call?: string }, ...rest: []): void {
      super.postMessage(message, ...rest);
      if (message.call !== ending.call || ending.times === 0) return;
      ending.times--;
      ending.ended++;
      // At work: a reading of an open photo is too short to be met by a timer.
      queueMicrotask(() => super.terminate());
    }
  };
}

export async function watchWorkers(page: Page): Promise<void> {
  await page.addInitScript(keepWorkers);
  await page.reload();
}

/** From now on. */
export const endAt = (page: Page, call: string, times: number): Promise<void> =>
  page.evaluate(([call, times]) => void Object.assign((window as unknown as { ending: Ending }).ending, { call, times, ended: 0 }), [call, times] as const);

export const ended = (page: Page): Promise<number> => page.evaluate(() => (window as unknown as { ending: Ending }).ending.ended);
