import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { openDepths, found, numbers, onScreen, settled } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** Presses Tab until the focus is on what the test is after. */
async function tabTo(page: Page, what: RegExp): Promise<void> {
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press('Tab');
    const name = await page.evaluate(() => {
      const e = document.activeElement;
      if (e === document.body) return '';
      return `${e?.className} | ${e?.getAttribute('aria-label') ?? e?.textContent ?? ''}`;
    });
    if (what.test(name)) return;
  }
  throw new Error(`Tab never reaches ${what}`);
}

/** Moves the cross to a place and marks there. */
async function mark(page: Page, at: [number, number]): Promise<void> {
  const d = (await page.locator('.cross').getAttribute('d'))!;
  const [, x, y] = d.match(/^M([\d.]+) ([\d.]+)/)!.map(Number);
  const stage = (await page.locator('.stage').boundingBox())!;
  const [dx, dy] = [at[0] - stage.x - (x! + 16), at[1] - stage.y - y!];
  const press = async (key: string, times: number) => {
    for (let i = 0; i < Math.floor(times / 5); i++) await page.keyboard.press(`Shift+${key}`);
    for (let i = 0; i < times % 5; i++) await page.keyboard.press(key);
  };
  await press(dx > 0 ? 'ArrowRight' : 'ArrowLeft', Math.round(Math.abs(dx) / 8));
  await press(dy > 0 ? 'ArrowDown' : 'ArrowUp', Math.round(Math.abs(dy) / 8));
  await page.keyboard.press('Enter');
}

it('gets from the empty page to a corrected reading without a pointer', async () => {
  const { page, errors, close } = await visit();
  const demo = await demoCase();
  await tabTo(page, /Open a photo/);
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
  await chooser.setFiles(demo.photo);
  // What was found is taken back: this is about marking without a pointer.
  await found(page);
  await page.keyboard.press('Control+z');
  await page.locator('.outline').first().waitFor({ state: 'detached' });
  await tabTo(page, /\| 2Card$/);
  await page.keyboard.press('Enter');
  await page.getByText('Tap the grey card in the photo.').waitFor();

  await tabTo(page, /^stage tool-card/);
  await page.locator('.cross').waitFor();
  await mark(page, await onScreen(page, demo.cardMiddle, demo.width));
  await page.locator('.outline[data-shape=card]').waitFor();
  // The tab tool is in hand now and the cross is still there.
  const tab = demo.scene.regions.find((r) => r.kind === 'tab')!;
  await mark(page, await onScreen(page, demo.inside(tab.id), demo.width));
  await page.locator('.outline').nth(1).waitFor();
  await settled(page);
  const [id] = Object.keys(await numbers(page));
  expect(id).toBeTruthy();

  // By numbers: select it in the list, open its table, type a coordinate.
  await tabTo(page, /\| Tab \w+$/);
  await page.keyboard.press('Enter');
  await page.locator('.selection-bar').waitFor();
  await tabTo(page, /\| By numbers$/);
  await page.keyboard.press('Enter');
  await page.locator('.point-table').waitFor();
  await tabTo(page, /Cervical end, Down/);
  const before = await numbers(page);
  const typed = await page.evaluate(() => String(Number((document.activeElement as HTMLInputElement).value) + 60));
  await page.keyboard.press('Control+a');
  await page.keyboard.type(typed);
  await expect.poll(async () => JSON.stringify(await numbers(page))).not.toBe(JSON.stringify(before));

  // The handles move by arrow keys.
  const path = () => page.locator(`.outline[data-shape="region:${id}"] .line`).getAttribute('d');
  const shape = await path();
  await page.locator('.handle.move').focus();
  await page.keyboard.press('Shift+ArrowRight');
  await expect.poll(path).not.toBe(shape);
  await page.keyboard.press('Shift+ArrowLeft');
  await expect.poll(path).toBe(shape);
  expect(errors).toEqual([]);
  await close();
});

it('nudges a point by one pixel, or ten with Shift, and goes from point to point', async () => {
  const { page, errors, close } = await visit();
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await openDepths(page);
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button').nth(1).click();
  await page.locator('.selection-bar').getByRole('button', { name: /Zoom/ }).click();
  await page.locator('.selection-bar').getByRole('button', { name: 'By numbers' }).click();
  const x = page.getByLabel('Point 1, Across (px)');
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('shape-editor');
  const start = Number(await x.inputValue());
  await page.locator('#point-0').focus();
  await page.keyboard.press('ArrowRight');
  await expect.poll(async () => Number(await x.inputValue())).toBeCloseTo(start + 1, 1);
  await page.keyboard.press('Shift+ArrowRight');
  await expect.poll(async () => Number(await x.inputValue())).toBeCloseTo(start + 11, 1);
  // The run of arrow keys is one step.
  await page.keyboard.press('Control+z');
  await expect.poll(async () => Number(await x.inputValue())).toBeCloseTo(start, 1);
  await page.locator('#point-0').focus();
  await page.keyboard.press(']');
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toMatch(/^point-[1-9]/);
  // Keys add and remove points, one after the other.
  const rows = page.locator('.point-table tbody tr');
  const count = await rows.count();
  await page.keyboard.press('Insert');
  await expect.poll(() => rows.count()).toBe(count + 1);
  for (let i = 0; i < 4; i++) {
    await page.locator('.handle.point[tabindex="0"]').focus();
    await page.keyboard.press('Delete');
  }
  await expect.poll(() => rows.count()).toBeLessThan(count - 3);
  expect(errors).toEqual([]);
  await close();
});

it('has no keyboard trap', async () => {
  const { page, close } = await visit();
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await openDepths(page);
  await page.getByRole('button', { name: 'More' }).focus();
  const seen = new Set<string>();
  for (let i = 0; i < 80; i++) {
    await page.keyboard.press('Tab');
    seen.add(await page.evaluate(() => document.activeElement?.tagName + (document.activeElement?.textContent ?? '').slice(0, 20)));
    if (i > 5 && (await page.evaluate(() => document.activeElement === document.body))) break;
  }
  expect(seen.size).toBeGreaterThan(10);
  expect(await page.evaluate(() => document.activeElement === document.body || document.activeElement?.closest('.top-bar') !== null)).toBe(true);
  await close();
});
