import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { complaints } from './axe';
import { closeBrowser, openBrowser, visit } from './browser';
import { anew, found, menu, onScreen, openDemo, openPhoto, pick, settled } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const SIZES = { wide: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };

it.each(Object.entries(SIZES))('axe finds nothing to object to (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  expect(await complaints(page)).toEqual([]);
  await openDemo(page);
  expect(await complaints(page)).toEqual([]);
  if (viewport.width < 640) await page.getByRole('button', { name: 'Photo', exact: true }).first().click();
  const demo = await demoCase();
  await page.mouse.click(...(await onScreen(page, demo.inside(demo.scene.regions[0]!.id), demo.width)));
  await page.locator('.selection-bar').getByRole('button', { name: 'By numbers' }).click();
  await page.locator('.point-table').waitFor();
  await page.getByRole('button', { name: 'More' }).click();
  expect(await complaints(page)).toEqual([]);
  await close();
});

/** Everything that is folded away or shows only in some state. */
async function openAll(page: Page): Promise<void> {
  await page.clock.install();
  await openDemo(page);
  await page.getByRole('button', { name: 'Lips retracted' }).click();
  await page.clock.fastForward(130_000);
  await pick(page, () => menu(page, 'Add the cross-polarised photo'), (await demoCase()).photo as never);
  await page.locator('.glare-table').waitFor({ state: 'attached' });
  await settled(page);
  await menu(page, 'Colours of my tabs');
  await page.getByRole('button', { name: 'Thirds of tab A1' }).click();
  await page.getByLabel('Tab A1, whole, L*', { exact: true }).fill('7');
  await page.getByRole('button', { name: 'Use these colours' }).click();
  await page.locator('.depth.stands summary').click();
  await page.locator('.drying-note summary').click();
}

it.each(Object.entries(SIZES))('axe finds nothing to object to in clock, pair and own tabs (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  await openAll(page);
  expect(await complaints(page)).toEqual([]);
  if (viewport.width < 640) await page.getByRole('button', { name: 'Photo', exact: true }).first().click();
  await page.getByRole('button', { name: 'Adjust', exact: true }).click();
  await page.locator('.lay-bar').waitFor();
  expect(await complaints(page)).toEqual([]);
  await close();
});

/** A photo just opened: what was found, a name asked for, a region with its bar, the line of a cut. */
const FOUND_STATES: ((page: Page) => Promise<void>)[] = [
  async (page) => {
    await openPhoto(page, (await demoCase()).photo);
    await found(page);
    await settled(page);
  },
  async (page) => {
    const none = page.getByRole('button', { name: 'There is none' });
    if (await none.isVisible()) await none.click();
    await page.getByRole('button', { name: 'Tab 1', exact: true }).first().click();
  },
  async (page) => {
    await page.getByRole('button', { name: 'Later' }).click();
    const demo = await demoCase();
    await page.mouse.click(...(await onScreen(page, demo.inside(demo.scene.regions[0]!.id), demo.width)));
    await page.locator('.selection-bar').getByRole('button', { name: 'Other outline' }).click();
    await page.locator('.bar-note').waitFor();
    await page.locator('.selection-bar').getByRole('button', { name: 'Zoom in' }).click();
  },
  async (page) => page.locator('.selection-bar').getByRole('button', { name: 'Cut', exact: true }).click(),
];

it.each(Object.entries(SIZES))('axe finds nothing to object to in what was found (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  for (const [i, state] of FOUND_STATES.entries()) {
    await state(page);
    expect([i, await complaints(page)]).toEqual([i, []]);
  }
  await close();
});

it.each([
  [1180, 820],
  [820, 1180],
  [390, 844],
  [1440, 900],
])('fits %i × %i: nothing sticks out and everything to press is large enough', async (width, height) => {
  const { page, close } = await visit({ viewport: { width, height } });
  for (const step of ['start', 'demo', 'all', 'adjust', 0, 1, 2, 3] as const) {
    if (step === 'demo') await openDemo(page);
    if (step === 'all') {
      await anew(page);
      await openAll(page);
    }
    if (step === 0) await anew(page);
    if (typeof step === 'number') await FOUND_STATES[step]!(page);
    if (step === 'adjust') {
      if (width < 640) await page.getByRole('button', { name: 'Photo', exact: true }).first().click();
      await page.getByRole('button', { name: 'Adjust', exact: true }).click();
    }
    const { overflow, small } = await page.evaluate(() => {
      const shown = (e: Element) => (e as HTMLElement).checkVisibility();
      const small = [...document.querySelectorAll('button, select, summary, input:not([type=radio])')]
        .filter(shown)
        .map((e) => ({ e, r: e.getBoundingClientRect() }))
        .filter(({ r }) => r.height < 43.5 || r.width < 43.5)
        .map(({ e, r }) => `${e.textContent} ${r.width}×${r.height}`);
      return { overflow: document.documentElement.scrollWidth - window.innerWidth, small };
    });
    expect([step, overflow <= 0, small]).toEqual([step, true, []]);
  }
  await close();
});
