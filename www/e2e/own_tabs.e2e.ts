import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { menu, openDemo, pick, settled } from './desk';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('takes the colours of own tabs: checked in words, used, saved, opened again, undone', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  await menu(page, 'Colours of my tabs');
  const book = page.locator('#own-tabs');
  const field = (name: string) => book.getByLabel(name, { exact: true });
  // Filled from the guide in use.
  await expect.poll(() => book.locator('tbody tr').count()).toBe(16);
  expect(Number(await field('Tab A1, whole, L*').inputValue())).toBeGreaterThan(60);

  await field('Tab A1, whole, L*').fill('7.9');
  await book.getByRole('button', { name: 'Use these colours' }).click();
  await book.getByText('Tab A1, whole: L* has to be a number from 30 to 100.').waitFor();
  expect(await field('Tab A1, whole, L*').getAttribute('aria-invalid')).toBe('true');
  await field('Tab A1, whole, L*').fill('79,4');
  await book.getByText('Not used yet:').waitFor({ state: 'detached' });
  await book.getByRole('button', { name: 'Thirds of tab A1' }).click();
  for (const [axis, value] of [['L*', '77'], ['a*', '0.5'], ['b*', '17']]) await field(`Tab A1, cervical, ${axis}`).fill(value!);
  await field('Name of the set').fill('Room 2');
  await book.getByRole('button', { name: 'Use these colours' }).click();
  await book.getByText('The 16 measured colours of “Room 2” are in use.').waitFor();
  await settled(page);
  await page.locator('.rungs li[aria-current]', { hasText: 'own measured tabs' }).waitFor();

  const [download] = await Promise.all([page.waitForEvent('download'), book.getByRole('button', { name: 'Save as a file' }).click()]);
  expect(download.suggestedFilename()).toBe('Room 2.guide.json');
  const text = readFileSync((await download.path())!, 'utf8');
  expect(JSON.parse(text)).toMatchObject({ name: 'Room 2', source: 'measured', tabs: [{ name: 'A1', lab: [79.4, expect.any(Number), expect.any(Number)], zones: { cervical: [77, 0.5, 17] } }, ...Array(15).fill({})] });

  await page.keyboard.press('Control+z');
  await book.getByText('are in use.').waitFor({ state: 'detached' });
  await expect.poll(() => field('Tab A1, whole, L*').inputValue()).not.toBe('79.4');
  await pick(page, () => book.getByRole('button', { name: 'Open a guide file' }).click(), { name: 'g.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await expect.poll(() => field('Tab A1, cervical, L*').inputValue()).toBe('77');
  expect(errors).toEqual([]);
  await close();
});
