/** What says that nothing can be shown is printed without what is pressed. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { drop, openDemo } from './desk';
import { dropSmall, uneven } from './faults_small';
import { cancelReading, holdNext } from './refusals_rest_parts';

beforeAll(openBrowser);
afterAll(closeBrowser);

const pressed = (page: Page): Promise<string[]> =>
  page.locator('button, select, textarea, input').evaluateAll((all) => all.filter((e) => e.checkVisibility({ visibilityProperty: true })).map((e) => e.textContent));

it('prints why no numbers are shown, and what was found', async () => {
  const { page, errors, close } = await visit();
  await drop(page, await uneven(page, 'a.jpg'));
  const reason = page.locator('.reason', { hasText: 'These numbers cannot be trusted, so none are shown.' });
  await reason.getByRole('button', { name: 'Open photo' }).waitFor();
  await page.emulateMedia({ media: 'print' });
  expect(await pressed(page)).toEqual([]);
  expect([await reason.isVisible(), await page.locator('.check.retake').first().isVisible()]).toEqual([true, true]);
  expect(errors).toEqual([]);
  await close();
});

it('prints that a reading was cancelled', async () => {
  const { page, errors, close } = await visit();
  const hold = await holdNext(page);
  await openDemo(page);
  await cancelReading(page, hold);
  const reason = page.locator('.reason', { hasText: 'Reading was cancelled.' });
  await reason.getByRole('button', { name: 'Once more' }).waitFor();
  await page.emulateMedia({ media: 'print' });
  expect(await pressed(page)).toEqual([]);
  expect(await reason.isVisible()).toBe(true);
  expect(errors).toEqual([]);
  await close();
});

it('shows in the place of a page that cannot be drawn what can be done, well apart from its words, and prints the words alone', async () => {
  const { page, close } = await visit();
  await page.waitForFunction(() => document.querySelector('.start'));
  // The photo's picture cannot be made; what says so has none.
  await page.evaluate(() => {
    const make = document.createElementNS.bind(document) as (...all: unknown[]) => Element;
    document.createElementNS = ((...all: unknown[]) => {
      if (all[1] === 'canvas') throw new Error('no canvas');
      return make(...all);
    }) as typeof document.createElementNS;
  });
  await dropSmall(page, 'a.jpg');
  await page.getByRole('heading', { name: 'The page cannot show this case.' }).waitFor();
  const again = page.getByRole('button', { name: 'Load again' });
  const [words, button] = [(await page.locator('.undrawn p').boundingBox())!, (await again.boundingBox())!];
  expect(button.y - words.y - words.height).toBeGreaterThanOrEqual(16);
  expect((await pressed(page)).sort()).toEqual(['Begin without this case', 'Load again']);
  await page.emulateMedia({ media: 'print' });
  expect(await pressed(page)).toEqual([]);
  expect(await page.locator('.undrawn p').isVisible()).toBe(true);
  await page.emulateMedia({ media: 'screen' });
  await again.click();
  await page.locator('.top-bar').waitFor();
  await close();
});
