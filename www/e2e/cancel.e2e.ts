import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { numbers, onScreen, openDemo, openPhoto, settled } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** Keeps the worker from answering, as a very large photo would. */
const holdWorker = (page: Page, ms: number): void => {
  void page
    .workers()
    // Another one frees photos.
    .find((worker) => worker.url().includes('/main-'))!
    .evaluate((ms) => {
      const until = Date.now() + ms;
      while (Date.now() < until);
    }, ms)
    .catch(() => {});
};

/** The finer copy of the demo's photo is there: nothing is done in the worker that makes way. */
const finer = (page: Page) => page.waitForFunction(() => document.querySelector<HTMLCanvasElement>('canvas.photo')!.width >= 1200);

it('shows progress after a moment, cancels, and goes on with what was open', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  await page.locator('.picture canvas').nth(2).waitFor();
  const before = await numbers(page);
  const { photo, scene } = await demoCase();
  await finer(page);

  holdWorker(page, 20_000);
  await openPhoto(page, { ...photo, name: 'large.jpg', buffer: Buffer.concat([photo.buffer, Buffer.from('large')]) });
  const busy = page.locator('.busy');
  await busy.waitFor();
  expect(await busy.innerText()).toContain('Opening large.jpg');
  await busy.getByRole('button', { name: 'Cancel' }).click();
  await busy.waitFor({ state: 'detached' });
  expect(await page.locator('.file-name').innerText()).toBe('demo photo: rendered, nobody’s teeth');
  expect(await numbers(page)).toEqual(before);

  // The worker was ended; the open photo is decoded again when it is needed.
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button').nth(1).click();
  await page.locator('.handle.move').focus();
  for (let i = 0; i < 6; i++) await page.keyboard.press('Shift+ArrowDown');
  const id = scene.regions[0]!.id;
  // A new worker's code is slow at first.
  await expect.poll(async () => JSON.stringify((await numbers(page))[id]), { timeout: 10_000 }).not.toBe(JSON.stringify(before[id]));
  await page.keyboard.press('Control+z');
  await settled(page);
  await expect.poll(() => numbers(page)).toEqual(before);
  await close();
});

it('says that a cancelled reading is missing, and reads again on the next change', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const before = await numbers(page);
  await page.locator('.picture canvas').nth(2).waitFor();
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button').nth(1).click();
  await finer(page);
  holdWorker(page, 20_000);
  await page.locator('.handle.move').focus();
  await page.keyboard.press('ArrowDown');
  await page.locator('.busy').getByRole('button', { name: 'Cancel' }).click();
  await page.locator('.reason', { hasText: 'Reading was cancelled.' }).waitFor();
  expect(await numbers(page)).toEqual({});
  await page.keyboard.press('Control+z');
  await expect.poll(() => numbers(page)).toEqual(before);
  await close();
});

declare global {
  interface Window {
    /** Lets the search that was held back begin. */
    letSearch(): void;
  }
}

/** Starts the search of the demo photo, held back until it is let go. */
async function searching(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const Real = window.Worker;
    window.Worker = class extends Real {
      override postMessage(message: { call: string }): void {
        if (message.call === 'find') window.letSearch = () => super.postMessage(message);
        else super.postMessage(message);
      }
    };
  });
  await page.reload();
  await openPhoto(page, (await demoCase()).photo);
  await page.getByText('Looking for card, tabs and teeth …').waitFor();
}

it('stops the search when asked to, and is ready to be marked by taps', async () => {
  const { page, errors, close } = await visit();
  await searching(page);
  await page.locator('.busy', { hasText: 'Looking for card' }).getByRole('button', { name: 'Cancel' }).click();
  await page.locator('.guide-note', { hasText: 'The search was stopped.' }).waitFor();
  expect(await page.locator('.outline').count()).toBe(0);
  // The card is the first that is missing; the photo is decoded again for the tap.
  await page.getByText('Tap the grey card in the photo.').waitFor();
  const demo = await demoCase();
  await page.mouse.click(...(await onScreen(page, demo.cardMiddle, demo.width)));
  await page.locator('.outline[data-shape=card]').waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('leaves alone what was marked while it searched', async () => {
  const { page, errors, close } = await visit();
  await searching(page);
  await page.getByRole('button', { name: '2 Card' }).click();
  await page.locator('.now').getByRole('button', { name: 'By numbers' }).click();
  const card = page.locator('.outline[data-shape=card] .line');
  const corners = async () => ((await card.getAttribute('d')) ?? '').split('L').length;
  expect(await corners()).toBe(4);
  await page.evaluate(() => window.letSearch());
  await page.locator('.guide-note', { hasText: 'tabs and' }).waitFor();
  expect(await page.locator('.guide-note').innerText()).not.toContain('ard');
  expect(await corners()).toBe(4);
  // One step takes what was found back, and only that.
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => page.locator('.outline').count()).toBe(1);
  expect(errors).toEqual([]);
  await close();
});
