/** What the browser keeps is not to be had, is damaged, or goes under the page: it works on, says so, and gives the case as a file. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { address, closeBrowser, openBrowser, visit } from './browser';
import { menu, openDepths, settled } from './desk';
import { damage, NO_DATABASE, stands } from './faults_storage';
import { kept, nameCase, rowOf, showCases, shows, stored, writeNote } from './keeping_case';
import { dropSmall, openSmall } from './faults_small';

beforeAll(openBrowser);
afterAll(closeBrowser);

const alert = (page: Page, text: string) => page.getByRole('alert').filter({ hasText: text });

/** The case as a file is one that can be opened. */
async function savesAFile(page: Page): Promise<void> {
  await menu(page, 'Save the case as a file');
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('.save-case button.primary').click()]);
  const bytes = readFileSync((await download.path())!);
  expect([bytes.subarray(0, 2).toString(), bytes.length > 20_000]).toEqual(['PK', true]);
}

for (const [how, without] of Object.entries(NO_DATABASE)) {
  it(`works on, says what is not kept, and saves a file when the database ${how}`, async () => {
    const { page, errors, close } = await visit({ acceptDownloads: true });
    await page.addInitScript(without);
    const begun = Date.now();
    await page.reload();
    await page.getByRole('button', { name: 'Open a photo' }).waitFor();
    expect(Date.now() - begun).toBeLessThan(5000);
    await openSmall(page, 'a.jpg');
    await alert(page, 'This browser keeps nothing here.').waitFor({ timeout: 15_000 });
    expect(await alert(page, 'This browser keeps nothing here.').innerText()).toContain('Save the case as a file');
    expect(await page.evaluate(() => !window.dispatchEvent(new Event('beforeunload', { cancelable: true })))).toBe(false);
    await openDepths(page);
    await writeNote(page, 'mine');
    await expect.poll(() => page.evaluate(() => !window.dispatchEvent(new Event('beforeunload', { cancelable: true })))).toBe(true);
    await savesAFile(page);
    expect(errors).toEqual([]);
    await close();
  });
}

it('a damaged case, head, photo or note of the desk takes no other with it', { timeout: 180_000 }, async () => {
  const { page, errors, close } = await visit();
  for (const name of ['Good', 'Head', 'Doc', 'Photo', 'Gone', 'Bare']) {
    await openSmall(page, `${name}.jpg`);
    await kept(page, 1);
    await nameCase(page, name);
    await menu(page, 'New case');
    await page.getByRole('button', { name: 'Open a photo' }).waitFor();
  }
  await page.waitForTimeout(400);
  await damage(page, [
    { store: 'cases', of: 'Head', put: { names: 7, prints: null, changed: 'never', created: {}, thumb: 'none', bytes: 'many', work: [] } },
    { store: 'docs', of: 'Doc', random: 5000 },
    { store: 'photos', of: 'Photo', put: { file: 'no bytes' } },
    { store: 'photos', of: 'Gone', remove: true },
    { store: 'docs', of: 'Bare', remove: true },
    { store: 'cases', of: 'nobody', put: { odd: true } },
    { store: 'desk', of: 'last', put: { value: 'Good' } },
    { store: 'desk', of: 'stains', put: { value: { at: 9e15, text: '{"own":' } } },
  ]);
  await stands(page);
  await page.getByRole('button', { name: /Cases on this device/ }).waitFor();
  await showCases(page);
  for (const name of ['Good', 'Head', 'Doc', 'Photo', 'Gone', 'Bare']) expect(await rowOf(page, name).count()).toBe(1);
  for (const name of ['Doc', 'Bare']) {
    await page.getByRole('button', { name: `Open ${name}`, exact: true }).click();
    await page.getByRole('status').filter({ hasText: 'This case is damaged' }).waitFor();
  }
  for (const name of ['Photo', 'Gone']) {
    if (!(await page.locator('.dialog.cases').isVisible())) await showCases(page);
    await page.getByRole('button', { name: `Open ${name}`, exact: true }).click();
    await alert(page, `The picture of ${name}.jpg is not here any more.`).waitFor();
    // The photo brings it back for good.
    await dropSmall(page, `${name}.jpg`);
    await settled(page);
    await kept(page, 1);
    await page.reload();
    await shows(page, `${name}.jpg`);
    expect(await alert(page, 'is not here any more').count()).toBe(0);
  }
  await showCases(page);
  await page.getByRole('button', { name: 'Open Good', exact: true }).click();
  await shows(page, 'Good.jpg');
  await openDepths(page);
  await writeNote(page, 'kept');
  await expect.poll(async () => (await stored(page, 'docs')).flatMap(({ doc }) => doc.photos?.[0]?.notes?.[0]?.text ?? [])).toEqual(['kept']);
  expect(errors).toEqual([]);
  await close();
});

it('goes on when the storage is cleared under it, says so, and saves a file', { timeout: 120_000 }, async () => {
  for (const how of ['deleted', 'cleared'] as const) {
    const { page, errors, close } = await visit({ acceptDownloads: true });
    await openSmall(page, 'a.jpg');
    await kept(page, 1);
    if (how === 'deleted') await page.evaluate(() => void indexedDB.deleteDatabase('tabside'));
    else await (await page.context().newCDPSession(page)).send('Storage.clearDataForOrigin', { origin: new URL(address()).origin, storageTypes: 'all' });
    await openDepths(page);
    await writeNote(page, 'after');
    await page.waitForTimeout(1500);
    // Either it says that nothing is kept any more, or all of it is kept anew.
    const said = await alert(page, 'erased').count();
    const again = await stored(page, 'docs');
    expect(said === 1 || (again.length === 1 && again[0].doc.photos[0].here && again[0].doc.photos[0].notes[0].text === 'after')).toBe(true);
    await savesAFile(page);
    expect(await page.getByLabel('Text of note 1').inputValue()).toBe('after');
    expect(errors).toEqual([]);
    await close();
  }
});
