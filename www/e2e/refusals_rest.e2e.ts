/** What the page says when a tap, a search, a cut or a reading comes to nothing, and that it goes on from there. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { drop, numbers, onScreen, openDemo, openDepths, settled } from './desk';
import { bar, keysOf, undo } from './found_case';
import { endAt, watchWorkers } from './faults_worker';
import { dropSmall, openSmall } from './faults_small';
import { shows } from './keeping_case';
import { cancelReading, holdNext, said, striped, STRIPED, withoutPhoto } from './refusals_rest_parts';

beforeAll(openBrowser);
afterAll(closeBrowser);

const BY_HAND = 'You can also place it by numbers and drag it into shape.';
const NOTHING = 'No tooth or tab stands out at that place. Tap nearer to its middle, or draw the outline by its corners.';

it('says that nothing stands out where a tap finds no outline, and takes one by numbers', async () => {
  const { page, errors, close } = await visit();
  await drop(page, await striped(page));
  await page.locator('.guide-note').waitFor({ state: 'attached' });
  const before = await keysOf(page);
  await page.locator('.guide ol button').nth(3).click();
  await page.getByText('Tap the natural tooth.').waitFor();
  await page.mouse.click(...(await onScreen(page, [STRIPED.nothingAt[0] + 0.5, STRIPED.nothingAt[1] + 0.5], STRIPED.width)));
  expect(await said(page, 'No outline was found for the tooth.')).toContain(`${NOTHING} ${BY_HAND}`);
  expect(await keysOf(page)).toEqual(before);
  await page.locator('.now').getByRole('button', { name: 'By numbers' }).click();
  await expect.poll(async () => (await keysOf(page)).length, { timeout: 10_000 }).toBe(before.length + 1);
  expect(errors).toEqual([]);
  await close();
});

it('says that the search or a cut failed, and searches and cuts when asked again', async () => {
  const { page, errors, close } = await visit();
  await watchWorkers(page);
  // The program, which tries itself out with a search of its own, is at rest.
  await openSmall(page, 'a.jpg');
  await endAt(page, 'find', 1);
  await dropSmall(page, 'b.jpg');
  await shows(page, 'b.jpg');
  expect(await said(page, 'The search for card, tabs and teeth failed.')).toContain('The browser ended the program, as it does when memory is short. What was open is still here. Do it once more. You can mark them by tapping.');
  // The step that is missing is in hand.
  await page.getByText('Tap the grey card in the photo.').waitFor();
  expect(await keysOf(page)).toEqual([]);
  await page.getByRole('alert').getByRole('button').click();
  await openSmall(page, 'c.jpg');
  await openDepths(page);
  const before = await keysOf(page);
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button').filter({ hasNotText: 'ard' }).first().click();
  await bar(page).getByRole('button', { name: 'Cut', exact: true }).press('Enter');
  await endAt(page, 'cut_outline', 1);
  await bar(page).getByRole('button', { name: 'Cut here' }).press('Enter');
  expect(await said(page, 'The outline could not be cut.')).toContain(BY_HAND);
  expect(await keysOf(page)).toEqual(before);
  await bar(page).getByRole('button', { name: 'Cut here' }).press('Enter');
  await expect.poll(async () => (await keysOf(page)).length, { timeout: 10_000 }).toBe(before.length + 1);
  expect(errors).toEqual([]);
  await close();
});

it('says after a cancelled reading that it starts again with the next change, and it does', async () => {
  const { page, errors, close } = await visit();
  const hold = await holdNext(page);
  await openDemo(page);
  const before = await numbers(page);
  await cancelReading(page, hold);
  await page.locator('.reason', { hasText: 'Reading was cancelled.' }).waitFor();
  expect(await page.locator('.reason').innerText()).toContain('It starts again with your next change.');
  await page.locator('.handle.move').focus();
  await page.keyboard.press('ArrowUp');
  await page.locator('.reason').waitFor({ state: 'detached' });
  await settled(page);
  await expect.poll(() => numbers(page)).toEqual(before);
  expect(errors).toEqual([]);
  await close();
});

it('says of a case without its photo that a change cannot be read, and keeps the numbers that came', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  const bare = await withoutPhoto(page);
  await page.evaluate(() => indexedDB.deleteDatabase('tabside'));
  await page.reload();
  await drop(page, bare);
  await page.getByText('The photo is not in the case. The numbers are those that were kept.').waitFor();
  const before = await numbers(page);
  expect(Object.keys(before).length).toBeGreaterThan(2);
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button').nth(1).click();
  await page.locator('.handle.move').focus();
  await page.keyboard.press('ArrowDown');
  const reason = page.locator('.reason', { hasText: 'This scene cannot be read.' });
  await reason.waitFor();
  expect(await reason.innerText()).toContain('The photo itself is not in this case, only its outlines and numbers. Ask the sender for the case with its photos to read it again.');
  expect(await numbers(page)).toEqual({});
  await undo(page);
  await expect.poll(() => numbers(page)).toEqual(before);
  expect(errors).toEqual([]);
  await close();
});
