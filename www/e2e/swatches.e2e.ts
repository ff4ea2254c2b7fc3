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
  await page.locator('.faults', { hasText: 'The result needs L* (35 to 97), a* (−12 to 20) and b* (−10 to 45).' }).waitFor();
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

it('refuses what cannot be meant, keeps it as typed, and marks what comes from the demo photo', async () => {
  const { page, errors, close } = await visit();
  await press(page, 'My swatches');
  // An empty book is no failure.
  await page.getByText('No swatches yet.').waitFor();
  expect(await page.locator('.reason').count()).toBe(0);
  await mode(page, 'Start');
  await openDemo(page);
  await mode(page, 'Swatches');
  await press(page, 'Add a swatch');
  const name = page.getByLabel('Stain (name on the jar)');
  await name.fill('umbra');
  const coats = page.getByLabel('Coats painted and fired', { exact: true });
  await page.getByLabel('Region').selectOption({ label: 'Tab A1' });
  await press(page, 'Take the base');
  await press(page, 'Take the result');
  for (const text of ['13', '0', '−2']) {
    await coats.fill(text);
    await coats.blur();
    await press(page, 'Keep the swatch');
    expect([await coats.inputValue(), await coats.getAttribute('aria-invalid')]).toEqual([text, 'true']);
    await page.locator('.faults', { hasText: 'Coats are a number from 0.25 to 12.' }).waitFor();
  }
  await coats.fill('1,5');
  await press(page, 'Keep the swatch');
  expect(await page.locator('.faults li').allInnerTexts()).toEqual([expect.stringContaining('the same outline of the same photo')]);
  await page.getByLabel('Region').selectOption({ label: 'Tab A3' });
  await press(page, 'Take the result');
  await press(page, 'Keep the swatch');
  await page.locator('.stain[data-stain=umbra]').waitFor();
  await page.locator('.stain summary').click();
  await page.locator('.swatch-row', { hasText: 'Swatch 1, 1½ coats demo photo, invented: Tab A1' }).waitFor();
  // The same jar, however it is written.
  await press(page, 'Add a swatch');
  await name.fill(' UMBRA ');
  await page.getByText('Goes to “umbra”').waitFor();
  await mode(page, 'Plan');
  await page.locator('.panel > .demo-line', { hasText: 'One swatch of your book was read from the demo photo: invented' }).waitFor();
  await page.locator('.file-name', { hasText: 'demo photo: rendered, nobody’s teeth' }).waitFor();
  expect(errors).toEqual([]);
  await close();
});
