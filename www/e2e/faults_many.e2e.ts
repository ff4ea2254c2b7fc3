/** Two hundred photos in one session, fifty on the tray at a time: no error, memory within bounds, still quick. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { menu } from './desk';
import { dropSmall } from './faults_small';
import { mode } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const CASES = 4;
const PHOTOS = Number(process.env['TABSIDE_MANY'] ?? 200) / CASES;

it('takes two hundred photos', { timeout: 600_000 }, async () => {
  const { page, errors, close } = await visit();
  await page.addInitScript(() => {
    const workers = new Set<Worker>();
    window.Worker = class extends Worker {
      constructor(...given: ConstructorParameters<typeof Worker>) {
        super(...given);
        workers.add(this);
      }
      override terminate(): void {
        workers.delete(this);
        super.terminate();
      }
    };
    const memoryOf = (worker: Worker): Promise<number> =>
      new Promise((done) => {
        worker.addEventListener('message', ({ data }) => data.id === -1 && data.kind !== 'phase' && done(Number(data.value ?? 0)));
        worker.postMessage({ id: -1, call: 'memory', args: [] });
      });
    Object.assign(window, { programs: async () => (await Promise.all([...workers].map(memoryOf))).reduce((sum, bytes) => sum + bytes, 0) });
  });
  await page.reload();
  const cdp = await page.context().newCDPSession(page);
  const figures: { heap: number; wasm: number; answer: number }[] = [];
  for (let at = 0; at < CASES; at++) {
    await dropSmall(page, `first of ${at}.jpg`);
    await page.locator('.file-name', { hasText: `first of ${at}.jpg` }).waitFor();
    await mode(page, 'Tray');
    await dropSmall(page, ...Array.from({ length: PHOTOS - 1 }, (_, i) => `${at}-${i}.jpg`));
    await expect.poll(() => page.locator('.tray-row', { hasText: 'tabs' }).count(), { timeout: 150_000 }).toBe(PHOTOS);
    // Still at hand: another photo is shown.
    const begun = Date.now();
    await page.locator('.tray-row').last().getByRole('button', { name: /^Show/ }).click();
    await page.locator('.tray-row.looked').last().waitFor();
    const answer = Date.now() - begun;
    await menu(page, 'New case');
    await page.getByRole('button', { name: 'Open a photo' }).waitFor();
    await cdp.send('HeapProfiler.collectGarbage');
    await cdp.send('HeapProfiler.collectGarbage');
    const { usedSize } = await cdp.send('Runtime.getHeapUsage');
    const wasm = await page.evaluate(() => (window as unknown as { programs(): Promise<number> }).programs());
    figures.push({ heap: usedSize / 1e6, wasm: wasm / 1e6, answer });
  }
  console.log(figures.map(({ heap, wasm, answer }, i) => `after ${PHOTOS * (i + 1)} photos: page ${heap.toFixed(1)} MB, programs ${wasm.toFixed(1)} MB, shown in ${answer} ms`).join('\n'));
  const [one, last] = [figures[0]!, figures.at(-1)!];
  expect(last.heap).toBeLessThan(1.5 * one.heap + 10);
  expect(one.wasm).toBeGreaterThan(1);
  expect(last.wasm).toBeLessThan(1.25 * one.wasm + 8);
  expect(Math.max(...figures.map(({ answer }) => answer))).toBeLessThan(3000);
  expect(errors).toEqual([]);
  await close();
});
