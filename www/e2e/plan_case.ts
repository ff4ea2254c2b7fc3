/** What a user does with stains, in the page's own words. */
import type { Page } from 'playwright-core';
import { openDemo } from './desk';

export const mode = (page: Page, name: string) => page.locator('.modes').getByRole('button', { name, exact: true }).click();
export const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();
export const json = (name: string, value: unknown) => ({ name, mimeType: 'application/json', buffer: Buffer.from(typeof value === 'string' ? value : JSON.stringify(value)) });

export async function demoPlan(page: Page): Promise<void> {
  await openDemo(page);
  await mode(page, 'Plan');
  await press(page, 'Use demo stains');
  await page.locator('.plan-sheet').waitFor();
}

/** Demo stains while colours are typed, then the demo's photo, then the plan from it. */
export async function fromTypedToPhoto(page: Page): Promise<void> {
  await mode(page, 'Plan');
  await press(page, 'From the photo');
  await press(page, 'Use demo stains');
  await mode(page, 'Start');
  await openDemo(page);
  await mode(page, 'Plan');
  await page.locator('.predicted canvas').first().waitFor();
}

export async function type(page: Page, what: string, lab: readonly number[]): Promise<void> {
  for (const [i, axis] of ['L*', 'a*', 'b*'].entries()) await page.getByLabel(`${what}, ${axis}`, { exact: true }).fill(String(lab[i]));
}
