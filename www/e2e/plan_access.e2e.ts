import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { complaints, cramped } from './axe';
import { closeBrowser, openBrowser, visit } from './browser';
import { fromTypedToPhoto, mode, press } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const SIZES = { wide: { width: 1440, height: 900 }, tablet: { width: 1180, height: 820 }, upright: { width: 820, height: 1180 }, phone: { width: 390, height: 844 } };

/** The plan and the swatches in the states in which they can be seen. */
const STATES: [string, (page: Page) => Promise<void>][] = [
  ['refused', async (page) => press(page, 'Plan by typed colours')],
  ['typed', async (page) => press(page, 'Type the colours')],
  ['form', async (page) => {
    await mode(page, 'Swatches');
    await press(page, 'Add a swatch');
    await press(page, 'Keep the swatch');
  }],
  ['plan', fromTypedToPhoto],
  ['work', async (page) => {
    await page.locator('.plan-step input').first().check();
    await page.locator('.limits summary').click();
  }],
  ['stains', async (page) => {
    await mode(page, 'Swatches');
    await page.locator('.stain summary').first().click();
  }],
  ['own', async (page) => {
    await press(page, 'Back to my stains');
    await page.getByRole('group', { name: 'From the open photo' }).waitFor();
  }],
  ['on photo', async (page) => {
    await press(page, 'Use demo stains');
    await mode(page, 'Plan');
    await page.getByRole('switch', { name: 'Show on the photo' }).click();
    await page.locator('.plan-patch').waitFor();
  }],
];

it.each(Object.entries(SIZES))('axe finds nothing to object to, nothing sticks out or is too small (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  for (const [name, state] of STATES) {
    await state(page);
    expect([name, await complaints(page), await cramped(page)]).toEqual([name, [], { overflow: false, small: [] }]);
  }
  await close();
});
