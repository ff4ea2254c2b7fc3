/** A worker that is ended at its work is noticed and told of; another one goes on with all that is open. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { numbers, openDepths, settled } from './desk';
import { ended, endAt, watchWorkers } from './faults_worker';
import { kept, openOne, photo, shows, writeNote } from './keeping_case';
import { mode } from './plan_case';
import { dropSmall, openSmall } from './faults_small';

beforeAll(openBrowser);
afterAll(closeBrowser);

const REASON = 'The browser ended the program';

it('says that a reading was ended, twice in a row, and reads the same again', async () => {
  const { page, errors, close } = await visit();
  await watchWorkers(page);
  await openOne(page, photo('a.jpg'));
  await openDepths(page);
  await writeNote(page, 'stays');
  await settled(page);
  const before = await numbers(page);
  expect(Object.keys(before).length).toBeGreaterThan(2);
  await endAt(page, 'read', 2);
  // Any change is read.
  await page.locator('.shape-list .chips button').filter({ hasNotText: 'Card' }).first().click();
  await page.locator('#shape-editor .fields input').first().fill('renamed');
  const reason = page.locator('.reason', { hasText: REASON });
  await reason.waitFor();
  expect(await reason.innerText()).toContain('What was open is still here');
  await reason.getByRole('button', { name: 'Once more' }).click();
  await expect.poll(() => ended(page)).toBe(2);
  await reason.waitFor();
  expect([await page.locator('.file-name').innerText(), await page.getByLabel('Text of note 1').inputValue()]).toEqual(['a.jpg', 'stays']);
  await reason.getByRole('button', { name: 'Once more' }).click();
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await settled(page);
  expect(await numbers(page)).toEqual(before);
  expect(await page.locator('.busy').count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

it('says that a photo was not opened, keeps the one that is open, and opens it the next time', async () => {
  const { page, errors, close } = await visit();
  await watchWorkers(page);
  await openSmall(page, 'a.jpg');
  await endAt(page, 'open', 1);
  await dropSmall(page, 'b.jpg');
  const alert = page.getByRole('alert').filter({ hasText: 'b.jpg could not be opened. What was open is still here.' });
  await alert.waitFor();
  expect(await alert.innerText()).toContain(REASON);
  expect([await ended(page), await page.locator('.file-name').innerText()]).toEqual([1, 'a.jpg']);
  await openSmall(page, 'b.jpg');
  expect(await alert.count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

it('searches and reads what lies on the tray all the same, and frees and keeps it', async () => {
  const { page, errors, close } = await visit();
  await watchWorkers(page);
  await openSmall(page, 'a.jpg');
  await endAt(page, 'find', 2);
  await mode(page, 'Tray');
  await dropSmall(page, 'b.jpg', 'c.jpg', 'd.jpg');
  await expect.poll(() => ended(page), { timeout: 20_000 }).toBe(2);
  await endAt(page, 'scrub', 1);
  await dropSmall(page, 'e.jpg');
  await expect.poll(() => page.locator('.tray-row', { hasText: 'tabs' }).count(), { timeout: 30_000 }).toBe(5);
  await kept(page, 5);
  expect(await ended(page)).toBe(1);
  expect(await page.getByRole('alert').count()).toBe(0);
  await page.reload();
  await shows(page, 'a.jpg');
  expect(errors).toEqual([]);
  await close();
});
