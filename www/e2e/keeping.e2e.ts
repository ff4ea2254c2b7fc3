import { afterAll, beforeAll, expect, it } from 'vitest';
import { complaints, cramped } from './axe';
import { address, closeBrowser, openBrowser, visit } from './browser';
import { drop, menu, numbers, openDemo, openDepths, settled } from './desk';
import { another, kept, nameCase, openOne, photo, rowOf, showCases, shows, stored, writeNote } from './keeping_case';
import { beginWork } from './passes_case';
import { mode } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('is there again after a reload: photos, outlines, notes, work, label; and reads the same', async () => {
  const { page, errors, close } = await visit();
  const asked: string[] = [];
  page.on('dialog', (dialog) => (asked.push(dialog.type()), dialog.accept()));
  await openDemo(page);
  await beginWork(page);
  await page.locator('.plan-step input').first().check();
  await mode(page, 'Reading');
  await openOne(page, photo('bench.jpg'));
  await openDepths(page);
  await writeNote(page, 'white spot');
  await page.locator('.shape-list .chips button').filter({ hasText: 'Tab 1' }).click();
  await page.locator('#shape-editor .fields input').first().fill('B2');
  await settled(page);
  const before = await numbers(page);
  expect(Object.keys(before).length).toBeGreaterThan(5);
  await kept(page, 2);
  await nameCase(page, 'Case 7');
  await page.waitForTimeout(800);
  await page.reload();
  await shows(page, 'bench.jpg');
  await page.getByRole('status').filter({ hasText: 'Your last case is open again: Case 7' }).waitFor();
  expect(asked).toEqual([]);
  await settled(page);
  expect(await numbers(page)).toEqual(before);
  expect(await page.getByLabel('Text of note 1').inputValue()).toBe('white spot');
  expect(await page.locator('.shape-list .chips button').filter({ hasText: 'Tab B2' }).count()).toBe(1);
  await mode(page, 'Tray');
  expect(await page.locator('.tray-row h2').allInnerTexts()).toEqual(['demo photo: rendered, nobody’s teeth', 'bench.jpg']);
  await page.locator('.tray-progress', { hasText: /^2 of 2/ }).waitFor();
  await mode(page, 'Plan');
  expect(await page.locator('.plan-step input').first().isChecked()).toBe(true);
  // The file that was opened is known again, though what is kept of it has less in it.
  await drop(page, photo('bench.jpg'));
  await page.getByRole('status').filter({ hasText: 'bench.jpg is already open.' }).waitFor();
  // Undo begins with what is done from here on.
  expect(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled()).toBe(true);
  expect(errors).toEqual([]);
  await close();
});

it('keeps photos without what stands in them besides the picture', async () => {
  const { page, close } = await visit();
  const { name, mimeType, buffer } = photo('told.jpg');
  const secret = 'taken at 47.3769 N 8.5417 E by Somebody';
  const remark = Buffer.concat([Buffer.from([0xff, 0xfe, 0, secret.length + 2]), Buffer.from(secret)]);
  await openOne(page, { name, mimeType, buffer: Buffer.concat([buffer.subarray(0, 2), remark, buffer.subarray(2)]) });
  await kept(page, 1);
  const inside = await page.evaluate(async () => {
    const asked = indexedDB.open('tabside');
    const db = await new Promise<IDBDatabase>((done) => (asked.onsuccess = () => done(asked.result)));
    const all = db.transaction('photos').objectStore('photos').getAll();
    const [one] = await new Promise<{ file: Blob }[]>((done) => (all.onsuccess = () => done(all.result)));
    const bytes = new Uint8Array(await one!.file.arrayBuffer());
    db.close();
    return { size: bytes.length, text: new TextDecoder('latin1').decode(bytes) };
  });
  expect([inside.text.includes('Somebody'), inside.text.includes('told.jpg'), inside.size > 400_000]).toEqual([false, false, true]);
  await close();
});

it('begins no case by looking at the demo, and one by doing something to it', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  await page.waitForTimeout(1500);
  expect(await stored(page, 'cases')).toEqual([]);
  await openDepths(page);
  await writeNote(page, 'mine');
  await kept(page, 1);
  await page.reload();
  await page.locator('.of-demo').waitFor();
  await settled(page);
  await openDepths(page);
  expect(await page.getByLabel('Text of note 1').inputValue()).toBe('mine');
  await close();
});

it('keeps up while changes keep coming', async () => {
  const { page, close } = await visit();
  await openOne(page, photo('a.jpg'));
  await openDepths(page);
  await writeNote(page, '');
  await kept(page, 1);
  const field = page.getByLabel('Text of note 1');
  await field.focus();
  const seen: number[] = [];
  const began = new Map<string, number>();
  let text = '';
  for (let i = 0; i < 40; i++) {
    text += String.fromCharCode(97 + (i % 26));
    began.set(text, Date.now());
    await page.keyboard.press(text.at(-1)!);
    const [{ doc }] = (await stored(page, 'docs')) as [{ doc: { photos: { notes: { text: string }[] }[] } }];
    const now = doc.photos[0]!.notes[0]!.text;
    // The oldest letter that is not kept yet.
    const missing = [...began].find(([typed]) => typed.length > now.length);
    seen.push(missing ? Date.now() - missing[1] : 0);
    await page.waitForTimeout(50);
  }
  expect(Math.max(...seen)).toBeLessThan(1000);
  await close();
});

it('lists cases: searched, opened, renamed, duplicated, deleted and brought back', async () => {
  const { page, errors, close } = await visit();
  await openOne(page, photo('first.jpg'));
  await kept(page, 1);
  await nameCase(page, 'Molar');
  await menu(page, 'New case');
  await page.getByRole('button', { name: 'Open a photo' }).waitFor();
  await page.getByRole('button', { name: 'Cases on this device (1)' }).waitFor();
  await openOne(page, photo('second.jpg'));
  await showCases(page);
  const titles = () => page.locator('.case-row h3').allInnerTexts();
  await expect.poll(titles).toEqual([expect.stringMatching(/^Untitled case, /), 'Molar']);
  expect(await rowOf(page, 'Molar').innerText()).toMatch(/1 photo · 0\.4 MB · changed .*\d/);
  await expect.poll(() => page.locator('.case-row img').count(), { timeout: 10_000 }).toBe(2);
  await page.getByLabel('Search by label, photo or date').fill('first');
  expect(await titles()).toEqual(['Molar']);
  await page.getByLabel('Search by label, photo or date').fill('nothing like it');
  await page.getByText('No case has this in its label').waitFor();
  await page.getByLabel('Search by label, photo or date').fill('');
  await page.getByRole('button', { name: 'Duplicate Molar' }).click();
  await rowOf(page, 'Molar (copy)').waitFor();
  await page.getByRole('button', { name: 'Delete Molar', exact: true }).click();
  const back = page.getByRole('button', { name: 'Undo: bring Molar back' });
  await back.waitFor();
  expect(await back.evaluate((e) => e === document.activeElement)).toBe(true);
  await back.click();
  await rowOf(page, 'Molar').waitFor();
  await page.getByRole('button', { name: 'Delete Molar (copy)' }).click();
  await page.getByRole('button', { name: 'Remove for good now: Molar (copy)' }).click();
  await expect.poll(async () => (await stored(page, 'cases')).length).toBe(2);
  // The photo is the other case's too.
  expect(await stored(page, 'photos')).toHaveLength(2);
  await page.getByRole('button', { name: 'Open Molar' }).click();
  await shows(page, 'first.jpg');
  await settled(page);
  expect(Object.keys(await numbers(page)).length).toBeGreaterThan(5);
  expect(await page.locator('dialog').count()).toBe(0);
  // The one that is on the desk: it is empty then.
  await showCases(page);
  await page.getByRole('button', { name: 'Delete Molar', exact: true }).click();
  await page.getByRole('button', { name: 'Undo: bring Molar back' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Open a photo' }).waitFor();
  await page.reload();
  await page.getByRole('button', { name: 'Cases on this device (1)' }).waitFor();
  // Deleted, and brought back even after a reload.
  await page.getByRole('button', { name: 'Cases on this device (1)' }).click();
  await page.getByRole('button', { name: 'Undo: bring Molar back' }).click();
  await rowOf(page, 'Molar').waitFor();
  expect(errors).toEqual([]);
  await close();
});

it.each(['dark', 'light'])('axe finds nothing to object to in the list of cases: %s', async (surround) => {
  const { page, close } = await visit({ bypassCSP: true });
  await page.evaluate((s) => localStorage.setItem('tabside.settings.1', JSON.stringify({ surround: s })), surround);
  await page.reload();
  await openOne(page, photo('first.jpg'));
  await kept(page, 1);
  for (const size of [{ width: 1180, height: 820 }, { width: 390, height: 844 }]) {
    await page.setViewportSize(size);
    await showCases(page);
    await page.locator('.case-row img').waitFor();
    expect(await complaints(page)).toEqual([]);
    await page.getByRole('button', { name: /^Rename/ }).click();
    expect(await complaints(page)).toEqual([]);
    expect(await cramped(page)).toEqual({ overflow: false, small: [] });
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByRole('button', { name: /^Duplicate/ }).click();
    await page.getByRole('button', { name: /^Delete .*\(copy\)/ }).click();
    await page.getByRole('button', { name: /^Undo: bring/ }).waitFor();
    expect(await complaints(page)).toEqual([]);
    expect(await cramped(page)).toEqual({ overflow: false, small: [] });
    await page.getByRole('button', { name: /^Remove for good/ }).click();
    await expect.poll(() => page.locator('.case-row').count()).toBe(1);
    await page.keyboard.press('Escape');
  }
  await menu(page, 'New case');
  await page.getByRole('button', { name: 'Cases on this device (1)' }).waitFor();
  expect(await complaints(page)).toEqual([]);
  expect(await cramped(page)).toEqual({ overflow: false, small: [] });
  await close();
});

it('is worked with the keyboard alone', async () => {
  const { page, close } = await visit();
  await openOne(page, photo('first.jpg'));
  await kept(page, 1);
  await page.getByRole('button', { name: 'More', exact: true }).focus();
  await page.keyboard.press('Enter');
  await page.locator('#menu-list').getByRole('button', { name: 'Cases on this device' }).focus();
  await page.keyboard.press('Enter');
  await page.locator('.case-row').waitFor();
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '');
  for (let i = 0; i < 12 && !(await focused()).startsWith('Rename'); i++) await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect.poll(focused).toBe('Label (not required)');
  await page.keyboard.type('Tooth 21');
  await page.keyboard.press('Enter');
  await rowOf(page, 'Tooth 21').waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('dialog').count()).toBe(0);
  await close();
});

it('asks the browser to keep it, says what it answered, and warns while it has not promised', async () => {
  const { page, close } = await visit();
  await openOne(page, photo('first.jpg'));
  await kept(page, 1);
  await showCases(page);
  await page.getByText('The browser has not promised to keep it').waitFor();
  expect(await page.locator('.case-storage').innerText()).toMatch(/\d+(\.\d)? MB used, \d+(\.\d)? [MG]B left/);
  await page.evaluate(() => (navigator.storage.persist = () => Promise.resolve(false)));
  await page.getByRole('button', { name: 'Ask the browser to keep it' }).click();
  await page.getByRole('status').filter({ hasText: 'The browser did not promise.' }).waitFor();
  await page.evaluate(() => (navigator.storage.persist = navigator.storage.persisted = () => Promise.resolve(true)));
  await page.getByRole('button', { name: 'Ask the browser to keep it' }).click();
  await page.getByText('The browser promised not to clear it by itself.').waitFor();
  expect(await page.getByText('has not promised').count()).toBe(0);
  // Stronger words when space is short.
  await page.keyboard.press('Escape');
  await page.evaluate(() => (navigator.storage.estimate = () => Promise.resolve({ usage: 950e6, quota: 1e9 })));
  await showCases(page);
  await page.getByText('Space is getting short: 50 MB left for this page.').waitFor();
  await close();
});

it('does not write over a case that is open in another window, and opens a copy there', async () => {
  const { page, close } = await visit();
  await openOne(page, photo('first.jpg'));
  await kept(page, 1);
  await nameCase(page, 'Molar');
  await page.waitForTimeout(800);
  const { page: second, errors } = await another(page.context(), address());
  await second.getByText('Your last case is open in another window: Molar').waitFor();
  expect(await second.locator('.file-name:not(:empty)').count()).toBe(0);
  await second.getByRole('button', { name: /^Cases on this device/ }).click();
  await second.locator('.case-row', { hasText: 'Open in another window.' }).waitFor();
  expect(await second.getByRole('button', { name: /^Delete/ }).count()).toBe(0);
  await second.keyboard.press('Escape');
  await second.getByRole('button', { name: 'Open a copy here' }).click();
  await shows(second, 'first.jpg');
  await openDepths(second);
  await writeNote(second, 'of the copy');
  await openDepths(page);
  await writeNote(page, 'of the first');
  await page.waitForTimeout(1500);
  const heads = await stored(page, 'cases');
  const docs = await stored(page, 'docs');
  const noteOf = (label: string) => docs.find(({ id }) => id === heads.find((h) => h.label === label).id).doc.photos[0].notes[0].text;
  expect([heads.length, noteOf('Molar'), noteOf('Molar (copy)')]).toEqual([2, 'of the first', 'of the copy']);
  // Each window has its own again.
  await second.reload();
  await second.getByRole('status').filter({ hasText: 'open again: Molar (copy)' }).waitFor();
  await page.reload();
  await page.getByRole('status').filter({ hasText: /open again: Molar$/ }).waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('loses nothing to another window where the browser knows no locks', async () => {
  const { page, close } = await visit();
  await page.context().addInitScript(() => Object.defineProperty(Navigator.prototype, 'locks', { value: undefined }));
  await page.reload();
  await openOne(page, photo('first.jpg'));
  await kept(page, 1);
  await nameCase(page, 'Molar');
  await page.waitForTimeout(800);
  const { page: second } = await another(page.context(), address());
  await shows(second, 'first.jpg');
  await settled(second);
  await openDepths(second);
  await writeNote(second, 'of the second');
  await second.waitForTimeout(1200);
  await openDepths(page);
  await writeNote(page, 'of the first');
  await page.getByRole('alert').filter({ hasText: 'Molar was changed in another window as well.' }).waitFor();
  await page.waitForTimeout(1200);
  const heads = await stored(page, 'cases');
  const docs = await stored(page, 'docs');
  const noteOf = (label: string) => docs.find(({ id }) => id === heads.find((h) => h.label === label).id).doc.photos[0].notes[0].text;
  expect([heads.length, noteOf('Molar'), noteOf('Molar (copy from this window)')]).toEqual([2, 'of the second', 'of the first']);
  await close();
});

it('neither loses nor overwrites what was opened before the last case was there', async () => {
  const { page, close } = await visit();
  await openOne(page, photo('first.jpg'));
  await kept(page, 1);
  await nameCase(page, 'Molar');
  await page.waitForTimeout(800);
  let go = () => {};
  const gate = new Promise<void>((open) => (go = open));
  await page.route(/assets\/restore-.*\.js$/, async (route) => (await gate, await route.continue()));
  await page.reload();
  await page.getByRole('button', { name: 'Open a photo' }).waitFor();
  await openOne(page, photo('urgent.jpg'));
  go();
  await expect.poll(async () => (await stored(page, 'cases')).length).toBe(2);
  expect(await page.locator('.file-name').innerText()).toBe('urgent.jpg');
  const docs = await stored(page, 'docs');
  expect(docs.map(({ doc }) => doc.photos.map((p: { name: string }) => p.name).join()).sort()).toEqual(['first.jpg', 'urgent.jpg']);
  await showCases(page);
  await page.getByRole('button', { name: 'Open Molar' }).click();
  await shows(page, 'first.jpg');
  await close();
});
