import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { complaints, cramped } from './axe';
import { closeBrowser, openBrowser, visit } from './browser';
import { demoCase } from './demo_case';
import { fixture, menu, openDemo, pick, settled, drop, type Given } from './desk';
import { mode } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const jpeg = (name: string, buffer: Buffer): Given => ({ name, mimeType: 'image/jpeg', buffer });
/** The same picture as another file. */
const again = (name: string, { buffer }: Given): Given => jpeg(name, Buffer.concat([buffer, Buffer.from(name)]));
const other = () => jpeg('bench.jpg', readFileSync(fixture('scenes/other.jpg')));
const broken = jpeg('broken.jpg', Buffer.from('no picture'));

/** The demo photo out of focus. */
async function blurred(page: Page): Promise<Given> {
  const bytes = await page.evaluate(async () => {
    const picture = await createImageBitmap(await (await fetch('./demo/demo.jpg')).blob());
    const canvas = new OffscreenCanvas(picture.width, picture.height);
    const context = canvas.getContext('2d')!;
    context.filter = 'blur(14px)';
    context.drawImage(picture, 0, 0);
    const made = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.95 });
    return [...new Uint8Array(await made.arrayBuffer())];
  });
  return jpeg('blurred.jpg', Buffer.from(bytes));
}

/** The worker that reads photos; another one frees them. */
const reader = (page: Page) => page.workers().find((worker) => worker.url().includes('/main-'))!;
const rows = (page: Page) => page.locator('.tray-row');
const names = (page: Page) => page.locator('.tray-row h2').allInnerTexts();
const allRead = (page: Page, n: number) => page.locator('.tray-progress', { hasText: new RegExp(`^${n} of ${n} `) }).waitFor({ timeout: 30_000 });

it('opens dropped photos one after another, tells a broken one by name, and reads them all', async () => {
  const { page, errors, close } = await visit();
  // Every line of progress that was shown, however shortly.
  await page.evaluate(() => {
    const seen = new Set<string>();
    (window as unknown as { seen: Set<string> }).seen = seen;
    new MutationObserver(() => {
      const line = document.querySelector('.tray-opening span')?.textContent;
      if (line) seen.add(line);
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  const { photo } = await demoCase();
  await drop(page, { ...photo, name: 'client.jpg' }, broken, other());
  await page.getByRole('alert').filter({ hasText: '1 of 3 files could not be opened.' }).waitFor();
  expect(await page.getByRole('alert').innerText()).toContain('broken.jpg: ');
  expect(await page.evaluate(() => [...(window as unknown as { seen: Set<string> }).seen])).toEqual(['Opening 1 of 3: client.jpg', 'Opening 2 of 3: broken.jpg', 'Opening 3 of 3: bench.jpg']);
  await allRead(page, 2);
  expect(await names(page)).toEqual(['client.jpg', 'bench.jpg', 'broken.jpg']);
  expect(await rows(page).nth(0).innerText()).toContain('You are looking at it.');
  expect(await rows(page).nth(1).innerText()).toMatch(/Card, 4 tabs and \d+ teeth found\./);
  expect(await rows(page).nth(2).innerText()).toContain('Could not be opened: ');
  await page.getByRole('button', { name: 'Take off broken.jpg' }).click();
  await expect.poll(() => names(page)).toEqual(['client.jpg', 'bench.jpg']);
  expect(errors).toEqual([]);
  await close();
});

it('changes between photos without losing what was done in either, and undo knows only what was done', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await drop(page, other(), again('third.jpg', other()));
  await allRead(page, 3);
  expect(await names(page)).toEqual(['demo photo: rendered, nobody’s teeth', 'bench.jpg', 'third.jpg']);
  const undo = page.getByRole('button', { name: 'Undo', exact: true });
  const outlines = () => page.locator('.outline').count();
  const before = await outlines();

  // Something is deleted in the demo, then the other photo is looked at.
  await mode(page, 'Reading');
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button').nth(2).click();
  await page.locator('.selection-bar').getByRole('button', { name: 'Delete' }).click();
  await expect.poll(outlines).toBe(before - 1);
  const label = await undo.getAttribute('title');
  await mode(page, 'Tray');
  await page.getByRole('button', { name: 'Show bench.jpg' }).click();
  await page.locator('.file-name', { hasText: 'bench.jpg' }).waitFor();
  // The order stays; what is looked at is marked.
  expect(await names(page)).toEqual(['demo photo: rendered, nobody’s teeth', 'bench.jpg', 'third.jpg']);
  expect(await page.locator('.tray-row[aria-current=true] h2').allInnerTexts()).toEqual(['bench.jpg']);
  expect(await undo.getAttribute('title')).toBe(label);

  await page.getByRole('button', { name: 'Take off third.jpg' }).click();
  await expect.poll(() => names(page)).toEqual(['demo photo: rendered, nobody’s teeth', 'bench.jpg']);
  await undo.click();
  await expect.poll(() => names(page)).toEqual(['demo photo: rendered, nobody’s teeth', 'bench.jpg', 'third.jpg']);
  await page.getByRole('button', { name: /^Show demo photo/ }).click();
  await page.locator('.file-name', { hasText: 'demo photo' }).waitFor();
  expect(await outlines()).toBe(before - 1);
  await undo.click();
  await expect.poll(outlines).toBe(before);
  // Opening a third photo brought one step; what it took to read it none.
  await undo.click();
  await expect.poll(() => names(page)).toEqual(['demo photo: rendered, nobody’s teeth']);
  await page.getByRole('button', { name: 'Redo', exact: true }).click();
  await expect.poll(() => names(page)).toHaveLength(3);
  expect(errors).toEqual([]);
  await close();
});

it('stops opening what is left when asked to', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await reader(page).evaluate(() => void setTimeout(() => { const until = Date.now() + 20_000; while (Date.now() < until); })).catch(() => {});
  await drop(page, other(), again('second.jpg', other()), again('third.jpg', other()));
  await page.locator('.tray-opening', { hasText: 'Opening 1 of 3: bench.jpg' }).waitFor();
  await page.getByRole('button', { name: 'Cancel: open none of those that are left' }).click();
  await page.getByRole('status').filter({ hasText: 'Cancelled: 0 photos opened, 3 left out.' }).waitFor();
  expect(await names(page)).toEqual(['demo photo: rendered, nobody’s teeth']);
  await mode(page, 'Reading');
  await settled(page);
  expect(await page.locator('.numbers tbody').count()).toBeGreaterThan(0);
  expect(errors).toEqual([]);
  await close();
});

it('writes the request for a new photo, gives all numbers with the reason where there are none', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true, permissions: ['clipboard-read', 'clipboard-write'] });
  await openDemo(page);
  await mode(page, 'Tray');
  await pick(page, () => page.getByRole('button', { name: 'Add photos' }).click(), (await blurred(page)) as never);
  await allRead(page, 2);
  const row = rows(page).nth(1);
  expect(await row.innerText()).toContain('Take again: The photo is ');
  // The demo has nothing against it that would be worth another visit.
  expect(await rows(page).nth(0).getByRole('button', { name: /Ask for a new photo/ }).count()).toBe(0);
  await row.getByRole('button', { name: /Ask for a new photo/ }).click();
  const letter = row.getByRole('textbox');
  const text = await letter.inputValue();
  expect(text).toMatch(/^Hello,\n\nThank you for the photo “blurred\.jpg”\./);
  expect(text).toContain('What stood in the way:\n- The picture is not quite sharp');
  await letter.fill(`${text}Kim`);
  await row.getByRole('button', { name: 'Copy the letter' }).click();
  await page.getByRole('status').filter({ hasText: 'The letter is copied.' }).waitFor();
  expect((await page.evaluate(() => navigator.clipboard.readText())).replaceAll('\r\n', '\n')).toBe(`${text}Kim`);
  const [saved] = await Promise.all([page.waitForEvent('download'), row.getByRole('button', { name: 'Save as a text file' }).click()]);
  expect([saved.suggestedFilename(), readFileSync((await saved.path())!, 'utf8')]).toEqual(['blurred - new photo please.txt', `${text}Kim`]);

  const [table] = await Promise.all([page.waitForEvent('download'), menu(page, 'Save the numbers of all photos as CSV')]);
  const lines = readFileSync((await table.path())!, 'utf8').trim().split('\r\n');
  const { scene } = await demoCase();
  const of = (name: string) => lines.filter((l) => l.startsWith(name) || l.startsWith(`"${name}`));
  expect(of('demo photo')).toHaveLength(4 * scene.regions.length);
  expect(of('blurred.jpg')).toHaveLength(1);
  expect(of('blurred.jpg')[0]).toMatch(/,{15,}"The photo is /);
  expect(errors).toEqual([]);
  await close();
});

it.each([
  [1180, 820],
  [390, 844],
])('is reached without a photo, fits %i × %i, and axe finds nothing to object to', async (width, height) => {
  const { page, errors, close } = await visit({ viewport: { width, height }, bypassCSP: true });
  await page.getByRole('button', { name: 'Several photos' }).click();
  await page.getByText('No photo is open.').waitFor();
  const sound = async () => expect([await complaints(page), await cramped(page)]).toEqual([[], { overflow: false, small: [] }]);
  await sound();
  const { photo } = await demoCase();
  await drop(page, { ...photo, name: 'client.jpg' }, broken, await blurred(page));
  await page.getByRole('button', { name: 'Close this message' }).click();
  await allRead(page, 2);
  await page.getByRole('button', { name: /Ask for a new photo instead of blurred/ }).click();
  await sound();
  // On a phone what is shown comes to the front.
  await page.getByRole('button', { name: 'Show blurred.jpg' }).click();
  await page.locator('.file-name', { hasText: 'blurred.jpg' }).waitFor({ state: 'attached' });
  expect(await page.locator('canvas.photo').isVisible()).toBe(true);
  expect(errors).toEqual([]);
  await close();
});

it('asks before a reload only while photos are not kept, and not with the demo alone', async () => {
  const { page, close } = await visit();
  const asked: string[] = [];
  page.on('dialog', (dialog) => (asked.push(dialog.type()), dialog.dismiss()));
  await openDemo(page);
  await mode(page, 'Tray');
  await page.reload();
  expect(asked).toEqual([]);
  await openDemo(page);
  // Kept from here on, but for what cannot be.
  await page.evaluate(() => {
    const put = IDBObjectStore.prototype.put;
    Object.assign(window, { put });
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('no', 'DataError');
    };
  });
  await drop(page, other(), again('third.jpg', other()));
  await page.locator('.tray-row', { hasText: 'third.jpg' }).or(page.locator('.file-name', { hasText: 'third.jpg' })).first().waitFor();
  await mode(page, 'Tray');
  await allRead(page, 3);
  await page.reload({ timeout: 1500 }).catch(() => {});
  expect(asked).toEqual(['beforeunload']);
  expect(await names(page)).toHaveLength(3);
  await page.evaluate(() => (IDBObjectStore.prototype.put = (window as unknown as { put: IDBObjectStore['put'] }).put));
  await page.getByRole('status').filter({ hasText: 'kept on this device again' }).waitFor({ timeout: 15_000 });
  await page.reload();
  expect(asked).toEqual(['beforeunload']);
  await mode(page, 'Tray');
  expect(await names(page)).toHaveLength(3);
  await close();
});

it('says what is open already, and prints the photos without what is pressed', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await mode(page, 'Tray');
  await page.getByText('a second photo is needed').waitFor();
  expect(await page.locator('.compare select').count()).toBe(0);
  await drop(page, other());
  await allRead(page, 2);
  await drop(page, jpeg('copy.jpg', other().buffer));
  await page.getByRole('status').filter({ hasText: 'copy.jpg is already open.' }).waitFor();
  expect(await names(page)).toEqual(['demo photo: rendered, nobody’s teeth', 'bench.jpg']);
  await page.locator('.compare-grid .difference[data-delta-e]').first().waitFor();
  await page.emulateMedia({ media: 'print' });
  const seen = (what: string) => page.locator(what).evaluateAll((all) => all.filter((e) => e.checkVisibility({ visibilityProperty: true })).length);
  expect(await seen('.page button, .page select, .page textarea, .tray-add, .page > .messages')).toBe(0);
  expect([await seen('.tray-row h2'), await seen('.thumb canvas'), await seen('.tray-check'), await seen('.compare-grid .difference[data-delta-e]')]).toEqual([2, 2, 2, 3]);
  if (process.env['TABSIDE_PRINT']) await page.pdf({ path: process.env['TABSIDE_PRINT'], format: 'A4' });
  expect(errors).toEqual([]);
  await close();
});

declare global {
  interface Window {
    /** Those that read photos, as the page began them. */
    begun: Worker[];
    /** Of the first two, those that will never be done with a search. */
    hung: Set<Worker>;
  }
}

it('reads many with two workers; a photo that is opened meanwhile comes first, and a lost worker loses nothing', async () => {
  const { page, errors, close } = await visit();
  await page.addInitScript(() => {
    window.begun = [];
    window.hung = new Set();
    const Real = window.Worker;
    window.Worker = class extends Real {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        if (/main-/.test(String(url))) window.begun.push(this);
      }
      override postMessage(message: { call: string }): void {
        if (message.call === 'find' && window.begun.indexOf(this) in [0, 1] && document.querySelector('.tray-row')) window.hung.add(this);
        else super.postMessage(message);
      }
    };
  });
  await page.reload();
  await openDemo(page);
  expect(await page.evaluate(() => [navigator.hardwareConcurrency > 1, window.begun.length])).toEqual([true, 1]);
  await mode(page, 'Tray');
  await drop(page, ...Array.from({ length: 6 }, (_, i) => again(`${i}.jpg`, other())));
  await expect.poll(() => page.evaluate(() => window.hung.size), { timeout: 15_000 }).toBe(2);
  await mode(page, 'Reading');
  await pick(page, () => page.getByRole('button', { name: 'Open photo' }).first().click(), again('now.jpg', other()));
  await page.locator('.file-name', { hasText: 'now.jpg' }).waitFor({ timeout: 20_000 });
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached', timeout: 20_000 });
  await settled(page);
  // The helper is lost as if it had not begun.
  await page.evaluate(() => window.begun[1]!.onerror!(new ErrorEvent('error', { message: 'lost' })));
  await mode(page, 'Tray');
  await allRead(page, 8);
  expect((await rows(page).allInnerTexts()).filter((text) => /could not/i.test(text))).toEqual([]);
  expect((await rows(page).allInnerTexts()).filter((text) => /Card, 4 tabs/.test(text))).toHaveLength(7);
  expect(errors).toEqual([]);
  await close();
});
