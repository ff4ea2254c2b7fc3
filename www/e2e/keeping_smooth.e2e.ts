/** A case of many photos is opened, and kept while it is worked on, without holding the page up. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { drop, openDepths } from './desk';
import { kept, photo, writeNote } from './keeping_case';
import { mode } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('opens at once: no photo but the one that is looked at is decoded, and nothing holds the page up', async () => {
  const { page, close } = await visit();
  await page.addInitScript(() => {
    const tasks: number[] = [];
    Object.assign(window, { longTasks: tasks });
    new PerformanceObserver((list) => tasks.push(...list.getEntries().map((e) => Math.round(e.duration)))).observe({ type: 'longtask', buffered: true });
  });
  await page.reload();
  const files = Array.from({ length: 10 }, (_, i) => photo(`p${i}.jpg`));
  await drop(page, ...files);
  await page.locator('.tray-progress', { hasText: /^10 of 10/ }).waitFor({ timeout: 50_000 });
  await kept(page, 10);
  const tasks = () => page.evaluate(() => (window as unknown as { longTasks: number[] }).longTasks.splice(0));
  await mode(page, 'Reading');
  await openDepths(page);
  await writeNote(page, '');
  await page.waitForTimeout(1500);
  await tasks();
  // Each letter is a change of a case with ten photos.
  await page.getByLabel('Text of note 1').focus();
  for (let i = 0; i < 30; i++) {
    await page.keyboard.press('x');
    await page.waitForTimeout(60);
  }
  await page.waitForTimeout(1000);
  const saving = await tasks();
  expect(saving.filter((ms) => ms > 50)).toEqual([]);
  await page.reload();
  await page.locator('canvas.photo').waitFor();
  expect(await page.evaluate(() => document.querySelectorAll('.file-name:not(:empty)').length)).toBe(1);
  await mode(page, 'Tray');
  expect(await page.locator('.tray-row').count()).toBe(10);
  await close();
});
