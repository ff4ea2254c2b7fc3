import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { address, closeBrowser, openBrowser, visit } from './browser';
import { drop, menu, openDepths, settled } from './desk';
import { another, kept, nameCase, openOne, photo, showCases, shows, stored, writeNote } from './keeping_case';
import { beginWork } from './passes_case';
import { mode } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const alerts = (page: Page) => page.getByRole('alert').allInnerTexts();

/** Whether the browser would ask before the page is left. */
async function asksToLeave(page: Page): Promise<boolean> {
  return page.evaluate(() => !window.dispatchEvent(new Event('beforeunload', { cancelable: true })));
}

/** Every alert that was shown, in a row. */
async function watchAlerts(page: Page): Promise<() => Promise<string[]>> {
  await page.evaluate(() => {
    const seen: string[] = [];
    Object.assign(window, { seenAlerts: seen });
    new MutationObserver((changes) => {
      for (const { addedNodes } of changes) for (const node of addedNodes) if (node instanceof Element && node.getAttribute('role') === 'alert') seen.push(node.querySelector('strong')?.textContent ?? '');
    }).observe(document.body, { subtree: true, childList: true });
  });
  return () => page.evaluate(() => (window as unknown as { seenAlerts: string[] }).seenAlerts);
}

async function typeSlowly(page: Page, text: string): Promise<void> {
  await page.getByLabel('Text of note 1').focus();
  for (const key of text) {
    await page.keyboard.press(key);
    await page.waitForTimeout(400);
  }
}

it('goes on in memory where the browser keeps nothing: says so once, and asks before leaving', async () => {
  const { page, errors, close } = await visit();
  await page.addInitScript(() => {
    // As private windows of some browsers do.
    IDBFactory.prototype.open = () => {
      throw new DOMException('The user denied permission to access the database.', 'SecurityError');
    };
  });
  await page.reload();
  await page.waitForTimeout(1000);
  expect(await alerts(page)).toEqual([]);
  const seen = await watchAlerts(page);
  await openOne(page, photo('a.jpg'));
  await page.getByRole('alert').filter({ hasText: 'This browser keeps nothing here.' }).waitFor();
  expect((await alerts(page)).join()).toContain('Save the case as a file before you close it.');
  await page.getByRole('alert').getByRole('button', { name: 'Close this message' }).click();
  await openDepths(page);
  await writeNote(page, '');
  await typeSlowly(page, 'white');
  expect(await seen()).toEqual(['This browser keeps nothing here.']);
  expect(await asksToLeave(page)).toBe(true);
  await settled(page);
  // Leaving the case is a step of undo here.
  await menu(page, 'New case');
  await page.getByRole('button', { name: 'Open a photo' }).waitFor();
  await page.keyboard.press('Control+z');
  await shows(page, 'a.jpg');
  await openDepths(page);
  expect(await page.getByLabel('Text of note 1').inputValue()).toBe('white');
  await showCases(page);
  await page.getByText('The browser’s storage does not answer.').waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('keeps a work in the other storage while there is no database, and takes it into a case when there is', async () => {
  const { page, close } = await visit();
  await page.addInitScript(() => {
    if (sessionStorage.getItem('shut')) IDBFactory.prototype.open = () => { throw new DOMException('denied', 'SecurityError'); };
  });
  await page.evaluate(() => sessionStorage.setItem('shut', '1'));
  await page.reload();
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await settled(page);
  await beginWork(page);
  await page.locator('.plan-step input').first().check();
  await page.getByRole('alert').filter({ hasText: 'This browser keeps nothing here.' }).waitFor();
  await page.evaluate(() => sessionStorage.removeItem('shut'));
  await page.reload();
  await page.locator('.work-waiting').waitFor();
  await page.getByRole('button', { name: 'Plan by typed colours' }).click();
  expect(await page.locator('.plan-step input').first().isChecked()).toBe(true);
  await expect.poll(async () => (await stored(page, 'cases')).map((h) => h.work !== null)).toEqual([true]);
  // From then on it is the case's.
  await expect.poll(() => page.evaluate(() => (JSON.parse(localStorage.getItem('tabside.stains.1')!) as { work: unknown }).work)).toBeNull();
  await close();
});

it('takes over the work that an earlier version kept, once', async () => {
  const { page, close } = await visit();
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await settled(page);
  await beginWork(page);
  await page.locator('.plan-step input').nth(1).check();
  await expect.poll(async () => (await stored(page, 'docs')).map(({ doc }) => doc.stains.work?.ticks)).toEqual([[1]]);
  // As the version before left it: all in one text, and no database.
  await page.evaluate(async () => {
    const asked = indexedDB.open('tabside');
    const db = await new Promise<IDBDatabase>((done) => (asked.onsuccess = () => done(asked.result)));
    const all = db.transaction('docs').objectStore('docs').getAll();
    const [{ doc }] = await new Promise<[{ doc: { stains: object } }]>((done) => (all.onsuccess = () => done(all.result as never)));
    db.close();
    const { at: _, ...mine } = JSON.parse(localStorage.getItem('tabside.stains.1')!) as { at: number };
    Object.assign(window, { before: JSON.stringify({ ...mine, ...doc.stains }) });
  });
  const before = await page.evaluate(() => (window as unknown as { before: string }).before);
  const fresh = await visit();
  await fresh.page.evaluate((text) => localStorage.setItem('tabside.stains.1', text), before);
  await fresh.page.reload();
  await fresh.page.locator('.work-waiting').waitFor();
  await expect.poll(async () => (await stored(fresh.page, 'docs')).map(({ doc }) => doc.stains.work?.ticks)).toEqual([[1]]);
  await expect.poll(() => fresh.page.evaluate(() => (JSON.parse(localStorage.getItem('tabside.stains.1')!) as { work: unknown }).work)).toBeNull();
  await fresh.page.reload();
  await fresh.page.locator('.work-waiting').waitFor();
  await fresh.page.waitForTimeout(1000);
  expect(await stored(fresh.page, 'cases')).toHaveLength(1);
  // An old text that reaches the disk late is not taken for something new.
  await fresh.page.evaluate((text) => localStorage.setItem('tabside.stains.1', text), before);
  await fresh.page.reload();
  await fresh.page.locator('.work-waiting').waitFor();
  await fresh.page.waitForTimeout(1000);
  expect(await stored(fresh.page, 'cases')).toHaveLength(1);
  await fresh.close();
  await close();
});

it('keeps outlines and notes when the photos do not fit, says so once, and all when there is room again', async () => {
  const { page, errors, close } = await visit();
  const seen = await watchAlerts(page);
  await page.evaluate(() => {
    const put = IDBObjectStore.prototype.put;
    Object.assign(window, { realPut: put });
    IDBObjectStore.prototype.put = function (value: { file?: unknown }, ...rest) {
      if (value.file instanceof Blob) throw new DOMException('Encountered full disk while opening backing store', 'QuotaExceededError');
      return put.call(this, value, ...rest);
    };
  });
  await openOne(page, photo('a.jpg'));
  await page.getByRole('alert').filter({ hasText: 'There is no room left to keep the photos on this device.' }).waitFor();
  await page.getByRole('alert').getByRole('button', { name: 'Close this message' }).click();
  await openDepths(page);
  await writeNote(page, '');
  await typeSlowly(page, 'full');
  expect(await seen()).toEqual(['There is no room left to keep the photos on this device.']);
  await expect.poll(async () => (await stored(page, 'docs')).map(({ doc }) => [doc.photos[0].here, doc.photos[0].notes[0]?.text])).toEqual([[false, 'full']]);
  expect(await stored(page, 'photos')).toEqual([]);
  expect(await asksToLeave(page)).toBe(true);
  await page.evaluate(() => (IDBObjectStore.prototype.put = (window as unknown as { realPut: IDBObjectStore['put'] }).realPut));
  await typeSlowly(page, '!');
  await kept(page, 1);
  await page.getByRole('status').filter({ hasText: 'kept on this device again' }).waitFor();
  expect(await asksToLeave(page)).toBe(false);
  expect(errors).toEqual([]);
  await close();
});

it('meets a quota of the browser itself: what is kept stays, work goes on, nothing is asked for twice', async () => {
  const { page, close } = await visit();
  const cdp = await page.context().newCDPSession(page);
  // Room for one photo. Before anything is written: the browser looks at its quota once in a while only.
  await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(address()).origin, quotaSize: 700_000 });
  await openOne(page, photo('a.jpg'));
  await kept(page, 1);
  await nameCase(page, 'Molar');
  const seen = await watchAlerts(page);
  await openOne(page, photo('b.jpg'));
  await page.getByRole('alert').filter({ hasText: /There is no room left to keep/ }).waitFor();
  await page.getByRole('alert').getByRole('button', { name: 'Close this message' }).click();
  await openDepths(page);
  await writeNote(page, '');
  await typeSlowly(page, 'full');
  expect((await seen()).length).toBeLessThanOrEqual(2);
  expect(await page.getByLabel('Text of note 1').inputValue()).toBe('full');
  expect(await asksToLeave(page)).toBe(true);
  page.on('dialog', (dialog) => void dialog.accept());
  await page.reload();
  await page.locator('.file-name', { hasText: /[ab]\.jpg/ }).waitFor();
  await mode(page, 'Tray');
  expect(await page.locator('.tray-row h2').allInnerTexts()).toContain('a.jpg');
  await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(address()).origin });
  await close();
});

it('touches nothing that a newer version keeps', async () => {
  const { page, close } = await visit();
  // A blank page of the same origin.
  await page.route('**/blank', (route) => route.fulfill({ contentType: 'text/html', body: '' }));
  await page.goto(new URL('blank', address()).href);
  await page.evaluate(async () => {
    await new Promise((done) => (indexedDB.deleteDatabase('tabside').onsuccess = done));
    const asked = indexedDB.open('tabside', 99);
    asked.onupgradeneeded = () => asked.result.createObjectStore('future', { keyPath: 'id' }).put({ id: 1 });
    await new Promise((done) => (asked.onsuccess = done));
    asked.result.close();
  });
  await page.goto(address());
  await openOne(page, photo('a.jpg'));
  await page.getByRole('alert').filter({ hasText: 'A newer version of Tabside keeps the cases' }).waitFor();
  expect(await asksToLeave(page)).toBe(false);
  await openDepths(page);
  await writeNote(page, 'x');
  await expect.poll(() => asksToLeave(page)).toBe(true);
  const left = await page.evaluate(async () => {
    const asked = indexedDB.open('tabside');
    await new Promise((done) => (asked.onsuccess = done));
    const names = [asked.result.version, ...asked.result.objectStoreNames];
    asked.result.close();
    return names;
  });
  expect(left).toEqual([99, 'future']);
  await close();
});

it('leaves a damaged case as it is, says so, and goes on with the others', async () => {
  const { page, errors, close } = await visit();
  await openOne(page, photo('good.jpg'));
  await kept(page, 1);
  await nameCase(page, 'Good');
  await menu(page, 'New case');
  await openOne(page, photo('bad.jpg'));
  await expect.poll(async () => (await stored(page, 'cases')).length).toBe(2);
  await nameCase(page, 'Bad');
  await page.waitForTimeout(800);
  await page.evaluate(async () => {
    const asked = indexedDB.open('tabside');
    const db = await new Promise<IDBDatabase>((done) => (asked.onsuccess = () => done(asked.result)));
    const tx = db.transaction(['docs', 'cases'], 'readwrite');
    const heads = tx.objectStore('cases').getAll();
    heads.onsuccess = () => {
      const { id } = (heads.result as { id: string; label: string }[]).find((h) => h.label === 'Bad')!;
      tx.objectStore('docs').put({ id, doc: { form: 1, photos: [{ name: 'bad.jpg', print: 7 }], shown: 0 } });
    };
    await new Promise((done) => (tx.oncomplete = done));
    db.close();
  });
  await page.reload();
  await page.getByRole('alert').filter({ hasText: 'Your last case is damaged and could not be read.' }).waitFor();
  await page.getByRole('button', { name: 'Open a photo' }).waitFor();
  await showCases(page);
  await page.getByRole('button', { name: 'Open Bad' }).click();
  await page.getByRole('status').filter({ hasText: 'This case is damaged' }).waitFor();
  await page.getByRole('button', { name: 'Open Good' }).click();
  await shows(page, 'good.jpg');
  expect((await stored(page, 'docs')).some(({ doc }) => doc.photos[0].print === 7)).toBe(true);
  expect(errors).toEqual([]);
  await close();
});

it('does not keep a photo that cannot be freed, says so once, and keeps the rest of the case', async () => {
  const { page, close } = await visit();
  const seen = await watchAlerts(page);
  const { mimeType, buffer } = photo('');
  // The first directory says that it has more entries than there are: facts are still read from it.
  const damaged = Buffer.from(buffer);
  const tiff = damaged.indexOf('Exif\0\0') + 6;
  damaged.writeUInt16BE(0x7777, tiff + 8 + 2 + 12 * 2 + 2);
  await openOne(page, { name: 'cut.jpg', mimeType, buffer: damaged });
  await page.getByRole('alert').filter({ hasText: 'cut.jpg cannot be kept on this device.' }).waitFor();
  await openDepths(page);
  await writeNote(page, 'mine');
  await page.waitForTimeout(1500);
  expect((await seen()).filter((text) => text.includes('cannot be kept'))).toHaveLength(1);
  expect(await asksToLeave(page)).toBe(true);
  expect(await stored(page, 'photos')).toEqual([]);
  page.on('dialog', (dialog) => void dialog.accept());
  await page.reload();
  await shows(page, 'cut.jpg');
  await openDepths(page);
  expect(await page.getByLabel('Text of note 1').inputValue()).toBe('mine');
  // The numbers that were read stand, and the page says what they are.
  await page.getByText('The photo is not in the case. The numbers are those that were kept.').waitFor();
  expect(await page.locator('.numbers tbody').count()).toBeGreaterThan(0);
  expect((await alerts(page)).join()).toContain('The picture of cut.jpg is not here any more.');
  // The file again brings the picture back to what was made of it.
  await drop(page, { name: 'the same.jpg', mimeType, buffer: damaged });
  await page.getByText('The photo is not in the case.').waitFor({ state: 'detached' });
  await settled(page);
  await openDepths(page);
  expect([await page.getByLabel('Text of note 1').inputValue(), await page.locator('.file-name').innerText()]).toEqual(['mine', 'cut.jpg']);
  await close();
});

it('goes on in memory when another window erases everything', async () => {
  const { page, close } = await visit();
  await openOne(page, photo('a.jpg'));
  await kept(page, 1);
  const { page: second } = await another(page.context(), address());
  await second.getByText('Your last case is open in another window').waitFor();
  await second.evaluate(() => new Promise((done, failed) => {
    const asked = indexedDB.deleteDatabase('tabside');
    asked.onsuccess = done;
    asked.onblocked = () => failed(new Error('blocked'));
  }));
  await openDepths(page);
  await writeNote(page, 'still here');
  await page.getByRole('alert').filter({ hasText: 'What was kept was erased' }).waitFor();
  expect(await asksToLeave(page)).toBe(true);
  await page.waitForTimeout(1200);
  // Nothing came back by itself.
  expect(await second.evaluate(async () => (await indexedDB.databases()).map((d) => d.name))).toEqual([]);
  await close();
});

it('says that a photo is still on its way when another case is wanted', async () => {
  const { page, close } = await visit();
  await openOne(page, photo('a.jpg'));
  await kept(page, 1);
  await mode(page, 'Tray');
  await drop(page, photo('b.jpg'), photo('c.jpg'), photo('d.jpg'), photo('e.jpg'));
  await page.locator('.tray-opening').waitFor();
  await menu(page, 'New case');
  await page.getByRole('status').filter({ hasText: 'Photos are still being opened.' }).waitFor();
  await kept(page, 5);
  await close();
});
