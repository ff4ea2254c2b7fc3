import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { menu, openDemo, pick } from './desk';
import { json, mode, press, type } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** Another photo with its scene; the swatches stay in sight. */
async function openDemoAgain(page: Page): Promise<void> {
  await menu(page, 'Demo case');
  await page.locator('.file-name', { hasText: 'demo photo' }).waitFor();
  await page.getByRole('group', { name: 'From the open photo' }).waitFor();
}

it('enters a swatch, refuses a bad file in words, takes and gives a file, and keeps it all', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  await press(page, 'My swatches');
  await press(page, 'Add a swatch');
  await page.getByLabel('Stain (name on the jar)').fill('umbra');
  await type(page, 'Base before', [78, 1, 16]);
  await press(page, 'Keep the swatch');
  await page.locator('.faults', { hasText: 'The result needs L* (5 to 100), a* and b*.' }).waitFor();
  // Half-finished it waits.
  await page.reload();
  await press(page, 'My swatches');
  expect(await page.getByLabel('Base before, L*').inputValue()).toBe('78');
  await type(page, 'After firing', [76.5, 1.6, 17.5]);
  await press(page, 'Keep the swatch');
  const stain = page.locator('.stain[data-stain=umbra]');
  await stain.locator('.strength').waitFor();
  expect(await stain.locator('.strength').innerText()).toMatch(/± [\d.]+ ΔE00/);

  const open = (file: ReturnType<typeof json>) => pick(page, () => press(page, 'Open a swatch file'), file);
  await open(json('broken.swatches.json', '{"swatches":[{"stain":"x","coats":99}]}'));
  await page.getByRole('alert').filter({ hasText: 'broken.swatches.json is not a book of swatches' }).waitFor();
  expect(await page.locator('.stain').count()).toBe(1);
  await press(page, 'Close this message');
  const more = { name: 'Bench 2', stains: [{ name: 'clear', glaze: true }], swatches: [1, 2, 3].map((coats) => ({ stain: 'rust', coats, base: [78, 1, 16], after: [78 - coats, 1 + coats, 16 + 2 * coats] })) };
  await open(json('more.swatches.json', more));
  await page.locator('.stain[data-stain=rust]').waitFor();
  expect(await page.locator('.stain').count()).toBe(3);
  await page.locator('.stain[data-stain=clear]', { hasText: 'Glaze' }).waitFor();

  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save as a file')]);
  expect(download.suggestedFilename()).toBe('Bench 2.swatches.json');
  const saved = JSON.parse(readFileSync((await download.path())!, 'utf8'));
  expect(saved.swatches).toHaveLength(4);
  expect(saved.swatches[0]).toEqual({ stain: 'umbra', coats: 1, base: [78, 1, 16], after: [76.5, 1.6, 17.5] });

  await stain.locator('summary').click();
  await stain.getByRole('button', { name: 'Remove umbra and its swatches' }).click();
  expect(await page.locator('.stain').count()).toBe(2);
  await page.keyboard.press('Control+z');
  await stain.waitFor();
  await page.reload();
  await menu(page, 'My swatches');
  await expect.poll(() => page.locator('.stain').count()).toBe(3);
  expect(errors).toEqual([]);
  await close();
});

it('takes base and result of a swatch from two photos', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await mode(page, 'Swatches');
  await press(page, 'Add a swatch');
  await page.getByLabel('Stain (name on the jar)').fill('umbra');
  await page.getByLabel('Region').selectOption({ label: 'Tab A1' });
  await press(page, 'Take the base');
  const base = await page.getByLabel('Base before, L*').inputValue();
  expect(Number(base)).toBeGreaterThan(60);
  await page.getByText('read from Tab A1, middle third, demo photo').waitFor();

  await openDemoAgain(page);
  await page.getByText('The result is still missing').waitFor();
  expect(await page.getByLabel('Base before, L*').inputValue()).toBe(base);
  await page.getByLabel('Region').selectOption({ label: 'Tab A3' });
  await press(page, 'Take the result');
  await press(page, 'Keep the swatch');
  await page.locator('.stain[data-stain=umbra]').waitFor();
  expect(errors).toEqual([]);
  await close();
});
