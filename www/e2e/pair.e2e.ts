import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { menu, openDemo, pick, settled } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** The demo photo stands in for its own partner: laid over itself nothing has to move. */
async function openPair(page: Page): Promise<void> {
  await openDemo(page);
  // A photo alone has nothing to choose from.
  expect(await page.locator('.pair-buttons').count()).toBe(0);
  const { photo } = await demoCase();
  await pick(page, () => menu(page, 'Add the cross-polarised photo'), photo as never);
  await page.locator('.pair-note').waitFor({ state: 'attached' });
  await settled(page);
}

const over = (page: Page) => page.locator('canvas.over');

it('shows the pair by buttons and by the V key, and what glare did to the value', async () => {
  const { page, errors, close } = await visit();
  await openPair(page);
  await expect.poll(() => page.locator('.pair-note p').innerText()).toContain('automatically: moved 0 px to the right');
  const cells = page.locator('.glare-table tbody td');
  expect(await cells.count()).toBe(9);
  expect(await cells.first().innerText()).toMatch(/glare (raised the value by about \d|did not raise)[\s\S]*L\* \d+\.\d cross-polarised/);
  expect(await page.locator('.numbers td[data-number=raised]').first().innerText()).toContain('meas.');

  const shown = page.locator('.segments [aria-pressed=true]');
  expect([await shown.innerText(), await over(page).count()]).toEqual(['Plain', 0]);
  await page.keyboard.press('v');
  expect([await shown.innerText(), await over(page).getAttribute('class')]).toEqual(['Cross-polarised', 'over polarised']);
  // It lies where the plain photo lies.
  const [a, b] = [(await page.locator('canvas.photo').boundingBox())!, (await over(page).boundingBox())!];
  for (const key of ['x', 'y', 'width', 'height'] as const) expect(Math.abs(a[key] - b[key])).toBeLessThan(1);
  await page.keyboard.press('v');
  await page.locator('canvas.over.glare').waitFor();
  const map = (await over(page).boundingBox())!;
  for (const key of ['x', 'y', 'width', 'height'] as const) expect(Math.abs(a[key] - map[key])).toBeLessThan(1);
  await page.keyboard.press('v');
  expect(await shown.innerText()).toBe('Plain');
  expect(errors).toEqual([]);
  await close();
});

it('is laid over by hand: by arrow keys, by numbers, and automatically again', async () => {
  const { page, errors, close } = await visit();
  await openPair(page);
  await page.getByRole('button', { name: 'Adjust', exact: true }).click();
  const bar = page.getByRole('group', { name: 'Lay it over by hand' });
  const field = (name: string) => bar.getByLabel(name, { exact: true });
  const box = async () => (await over(page).boundingBox())!;
  const before = await box();
  const plain = (await page.locator('canvas.photo').boundingBox())!;
  const { width } = await demoCase();

  await page.locator('.stage').focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('ArrowUp');
  await expect.poll(async () => [await field('Right (px)').inputValue(), await field('Down (px)').inputValue()]).toEqual(['30', '-1']);
  // To the right on the screen as well, by 30 photo pixels.
  expect((await box()).x - before.x).toBeCloseTo((30 * plain.width) / width, 0);
  await expect.poll(() => page.locator('.pair-note p').innerText()).toContain('by hand: moved 30 px to the right and 1 px up');
  await settled(page);

  await field('Size (%)').fill('102');
  await expect.poll(async () => (await box()).width / plain.width).toBeCloseTo(1.02, 3);
  await bar.getByRole('button', { name: 'Turn (°): more' }).click();
  await expect.poll(() => field('Turn (°)').inputValue()).toBe('0.1');
  await page.keyboard.press('Control+z');
  await expect.poll(async () => [await field('Size (%)').inputValue(), await field('Right (px)').inputValue()]).toEqual(['100', '0']);
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(() => field('Size (%)').inputValue()).toBe('102');

  await bar.getByRole('button', { name: 'Lay over automatically again' }).click();
  await settled(page);
  await expect.poll(() => page.locator('.pair-note p').innerText()).toContain('automatically: moved 0 px');
  await page.locator('.stage').focus();
  await page.keyboard.press('Escape');
  await bar.waitFor({ state: 'detached' });
  expect(errors).toEqual([]);
  await close();
});
