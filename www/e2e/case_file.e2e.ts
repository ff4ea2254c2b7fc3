import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { changed } from './case_parts';
import { openCaseFile, saveCase } from './case_save';
import { complaints, cramped } from './axe';
import { closeBrowser, openBrowser, visit } from './browser';
import { demoCase } from './demo_case';
import { fixture, found, menu, numbers, openDemo, openDepths, openPhoto, settled } from './desk';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** How many bytes of photos lie in the browser's database, and which of the words stand in any of them. */
const stored = (page: Page, words: readonly string[] = []): Promise<{ bytes: number; words: string[] }> =>
  page.evaluate(async (words) => {
    const request = <R>(asked: IDBRequest<R>) => new Promise<R>((done, fail) => ((asked.onsuccess = () => done(asked.result)), (asked.onerror = () => fail(asked.error))));
    const database = await request(indexedDB.open('tabside'));
    const files = ((await request(database.transaction('photos').objectStore('photos').getAll())) as { file: Blob }[]).map((r) => r.file);
    database.close();
    const texts = await Promise.all(files.map(async (file) => new TextDecoder('latin1').decode(await file.arrayBuffer())));
    return { bytes: files.reduce((sum, file) => sum + file.size, 0), words: words.filter((word) => texts.some((text) => text.includes(word))) };
  }, words);

const outcome = (page: Page) => page.locator('.opened-file .outcome');

async function savedDemo(how: Parameters<typeof saveCase>[1] = {}) {
  const { page, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  const before = await numbers(page);
  const file = await saveCase(page, how);
  await close();
  return { file, before };
}

it('opens a saved case with the same numbers in another browser', async () => {
  const { file, before } = await savedDemo({ label: 'Upper left 1' });
  expect(file.name).toBe('Upper left 1.tabside');
  const { page, errors, close } = await visit();
  await openCaseFile(page, file);
  await outcome(page).filter({ hasText: 'The same numbers: every value came out as it is kept in the file.' }).waitFor();
  await settled(page);
  expect(await numbers(page)).toEqual(before);
  expect(await page.locator('.opened-file').innerText()).toContain('Upper left 1, saved');
  expect(errors).toEqual([]);
  await close();
});

it('asks for the passphrase of the file that was chosen last, and of none once that was given up', async () => {
  const { page, errors, close } = await visit();
  const dialog = page.getByRole('dialog');
  await openCaseFile(page, fixture('case/locked.tabside'));
  await dialog.getByText('locked.tabside').waitFor();
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'detached' });
  await openCaseFile(page, fixture('case/version-1.tabside'));
  await page.locator('.opened-file').getByText('The work in the case could not be opened and is left out: It is not a work that was saved here').waitFor();
  expect(await page.locator('.file-name').innerText()).toBe('photo one.png');
  expect(await dialog.count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

it('encrypts a case; a wrong passphrase and a changed file are told apart', async () => {
  const { file, before } = await savedDemo({ passphrase: 'four plain words here' });
  expect(file.buffer.subarray(0, 8).toString()).toBe('TABSLOCK');
  expect(file.buffer.includes('case.json')).toBe(false);
  const { page, close } = await visit();
  const dialog = page.getByRole('dialog');
  const type = async (passphrase: string) => {
    await dialog.getByLabel('Passphrase', { exact: true }).fill(passphrase);
    await dialog.getByRole('button', { name: 'Open', exact: true }).click();
  };
  const changed = Buffer.from(file.buffer);
  changed[changed.length >> 1]! ^= 1;
  await openCaseFile(page, { ...file, buffer: changed });
  await type('four plain words there');
  await dialog.getByRole('alert').filter({ hasText: 'The passphrase is wrong' }).waitFor();
  await type('four plain words here');
  await dialog.getByRole('alert').filter({ hasText: 'changed or damaged after it was saved' }).waitFor();
  await dialog.getByRole('button', { name: 'Close' }).click();
  await openCaseFile(page, file);
  await type('four plain words here');
  await outcome(page).filter({ hasText: 'The same numbers' }).waitFor();
  expect(await numbers(page)).toEqual(before);
  await close();
});

it.each([
  ['None', 'The photo is not in the case. The numbers are those that were kept.', 200_000],
  ['Reduced copies for the eye', 'This is a reduced copy for the eye. The numbers are those that were kept.', 700_000],
])('shows the kept numbers of a case whose photos are: %s', async (photos, line, most) => {
  const { file, before } = await savedDemo({ photos });
  expect(file.buffer.length).toBeLessThan(most);
  const { page, errors, close } = await visit();
  await openCaseFile(page, file);
  await page.getByText(line).waitFor();
  await outcome(page).filter({ hasText: 'could not be derived again' }).waitFor();
  expect(await numbers(page)).toEqual(before);
  // What was changed cannot be read any more; undo brings the numbers back.
  await openDepths(page);
  expect(errors).toEqual([]);
  await close();
});

it('says which numbers are others, and why', async () => {
  const { file } = await savedDemo();
  const { page, close } = await visit();
  const strip = page.locator('.opened-file');
  const see = async (buffer: Buffer, ...texts: string[]) => {
    await openCaseFile(page, { ...file, buffer });
    await outcome(page).filter({ hasText: 'Other numbers came out' }).waitFor();
    await openDepths(page);
    const said = await strip.innerText();
    for (const text of texts) expect(said).toContain(text);
    await strip.getByRole('button', { name: 'Close' }).click();
  };
  const kept = changed(file.buffer, (found) => (found.photos[0].reading.report.readings[0].zones.middle.lab[0] += 3));
  await see(kept, 'the kept numbers were changed', 'readings/', '/zones/middle/lab/0');
  const moved = changed(file.buffer, (found) => {
    const region = found.photos[0].scene.regions[0];
    region.outline = region.outline.map(([x, y]: [number, number]) => [x, y + 40]);
  });
  await see(moved, 'was changed after the reading');
  await see(changed(file.buffer, (found) => (found.photos[0].reading.report.version = '0.0.9', found.program = '0.0.9', found.photos[0].reading.report.readings[0].zones.middle.lab[0] += 3)), '0.0.9');
  await close();
});

it('shows what stands in a case as text, whatever it is, and leaves out what is no photo', async () => {
  const { file } = await savedDemo();
  const script = '<img src=x onerror="window.hurt=1"><script>window.hurt=1</script>';
  const hurt = changed(file.buffer, (found) => {
    const [photo] = found.photos;
    found.label = photo.name = script;
    photo.notes = [{ id: script, at: [100, 100], text: script }];
    for (const region of photo.scene.regions) region.name = script.slice(0, 90);
    found.swatches = { name: script, demo: false, stains: [{ name: script.slice(0, 30), glaze: false, note: script, resting: false }], swatches: [] };
  });
  const { page, errors, close } = await visit();
  await openCaseFile(page, { ...file, buffer: hurt });
  await page.locator('.opened-file').waitFor();
  await settled(page);
  await openDepths(page);
  for (const name of ['Tray', 'Plan', 'Swatches', 'Practice', 'Reading']) await page.getByRole('button', { name, exact: true }).click();
  expect(await page.evaluate(() => (window as { hurt?: number }).hurt)).toBeUndefined();
  expect(await page.locator('img, script:not([src])').count()).toBe(0);

  const noPhoto = changed(file.buffer, (found, parts) => {
    const name = found.photos[0].part as string;
    parts.set(name, Buffer.from('this is no picture, whatever its name says'));
    delete found.photos[0].sha256;
  });
  await openCaseFile(page, { ...file, buffer: noPhoto });
  await page.getByText('The photo is not in the case. The numbers are those that were kept.').waitFor();
  expect(await page.locator('.opened-file').innerText()).toMatch(/in the case was left out/);
  expect(errors).toEqual([]);
  await close();
});

it('opens a case of a newer version for looking, and does not write it', async () => {
  const { file } = await savedDemo({ label: 'From the future' });
  const { page, close } = await visit();
  await openCaseFile(page, { ...file, buffer: changed(file.buffer, (found) => Object.assign(found, { version: 2, hologram: { depth: 3 } })) });
  const strip = page.locator('.opened-file');
  await strip.filter({ hasText: 'saved by a newer version of the program (case version 2)' }).waitFor();
  expect(await strip.innerText()).toContain('hologram');
  await outcome(page).filter({ hasText: 'The same numbers' }).waitFor();
  await strip.getByRole('button', { name: 'Close' }).click();
  await menu(page, 'Save the case as a file');
  await page.getByRole('dialog').getByText('would lose what this version does not understand').waitFor();
  expect(await page.getByRole('button', { name: 'Save the file' }).count()).toBe(0);
  await close();
});

it('keeps no position and no serial number, in the file or on the device', async () => {
  const { page, close } = await visit({ acceptDownloads: true });
  const { photo } = await demoCase();
  const words = 'exif:GPSLatitude="46,57.1N" aux:SerialNumber="SN-77001234"';
  const xmp = Buffer.from(`http://ns.adobe.com/xap/1.0/\0<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:Description ${words}/></x:xmpmeta>`);
  const segment = Buffer.concat([Buffer.from([0xff, 0xe1, (xmp.length + 2) >> 8, (xmp.length + 2) & 255]), xmp]);
  const marked = Buffer.concat([photo.buffer.subarray(0, 2), segment, photo.buffer.subarray(2)]);
  await openPhoto(page, { ...photo, name: 'marked.jpg', buffer: marked });
  await found(page);
  const file = await saveCase(page);
  expect(marked.includes('SN-77001234')).toBe(true);
  expect(file.buffer.includes('SN-77001234') || file.buffer.includes('GPSLatitude')).toBe(false);
  expect(await page.locator('[role=status]').allInnerTexts()).toContainEqual(expect.stringContaining('were removed from 1 photo'));
  await expect.poll(async () => (await stored(page)).bytes, { timeout: 5000 }).toBeGreaterThan(500_000);
  expect((await stored(page, ['SN-77001234', 'GPSLatitude', 'JFIF'])).words).toEqual(['JFIF']);
  await close();
});

it.each([[1180, 820, 'dark'], [390, 844, 'light']] as const)('fits %i × %i (%s), and axe finds nothing to object to', async (width, height, surround) => {
  const { file } = await savedDemo({ passphrase: 'four plain words here', photos: 'None' });
  const { page, close } = await visit({ viewport: { width, height } });
  if (surround === 'light') {
    await menu(page, 'Settings');
    await page.getByLabel('Light').check();
    await page.keyboard.press('Escape');
  }
  const fits = async (where: string) => expect([where, await complaints(page), await cramped(page)]).toEqual([where, [], { overflow: false, small: [] }]);
  await openCaseFile(page, file);
  await page.getByLabel('Passphrase', { exact: true }).fill('no');
  await page.keyboard.press('Enter');
  await page.getByRole('dialog').getByRole('alert').waitFor();
  await fits('unlock');
  await page.getByLabel('Passphrase', { exact: true }).fill('four plain words here');
  await page.keyboard.press('Enter');
  await outcome(page).filter({ hasText: 'could not be derived again' }).waitFor();
  await settled(page);
  await openDepths(page);
  await fits('opened');
  await menu(page, 'Save the case as a file');
  await page.getByLabel('Passphrase (not required)').fill('short');
  await fits('save');
  await close();
});

it('says that a photo joined the case, and makes a case of its own of it', async () => {
  const { page, close } = await visit({ acceptDownloads: true });
  const { photo } = await demoCase();
  await openPhoto(page, fixture('scenes/other.jpg'));
  await found(page);
  // The name in the file is the name of the case from then on.
  await saveCase(page, { label: '4711 crown 21' });
  await page.locator('.told', { hasText: '4711 crown 21.tabside was saved.' }).waitFor();
  await page.locator('.case-label', { hasText: '4711 crown 21' }).waitFor();
  await openPhoto(page, { ...photo, name: 'next.jpg' });
  await page.locator('.told', { hasText: 'The photo joined the case “4711 crown 21”, which has 2 photos now.' }).waitFor();
  await page.getByRole('button', { name: 'Another patient? Begin a new case with it' }).click();
  await page.locator('.case-label').waitFor({ state: 'detached' });
  expect(await page.locator('.file-name').innerText()).toBe('next.jpg');
  await menu(page, 'Cases on this device');
  const rows = page.getByRole('dialog').getByRole('listitem');
  await expect.poll(() => rows.allInnerTexts()).toEqual([expect.stringMatching(/Untitled case[\s\S]*1 photo[\s\S]*next\.jpg/), expect.stringMatching(/4711 crown 21[\s\S]*1 photo[\s\S]*other\.jpg/)]);
  await rows.nth(1).getByRole('button', { name: 'Open' }).click();
  await page.locator('.file-name', { hasText: 'other.jpg' }).waitFor();
  await settled(page);
  await close();
});

/** A case of one photo, saved and kept on the device; the tray is shown. */
async function onTray() {
  const { page, close } = await visit({ acceptDownloads: true });
  await openPhoto(page, fixture('scenes/other.jpg'));
  await found(page);
  await saveCase(page, { label: '4711 crown 21' });
  await page.getByRole('button', { name: 'Tray', exact: true }).click();
  await page.waitForTimeout(1200);
  return { page, close };
}

it('brings a case back whose last photo was taken off, and opens where one was', async () => {
  const { page, close } = await onTray();
  await page.reload();
  await page.locator('#photos').waitFor();
  await page.getByRole('button', { name: /Take .*off/ }).first().click();
  await page.locator('.told', { hasText: '4711 crown 21 is empty now.' }).waitFor();
  await menu(page, 'Cases on this device');
  await page.getByRole('dialog').getByRole('button', { name: /bring 4711 crown 21 back/ }).click();
  await page.keyboard.press('Escape');
  await page.locator('.case-label', { hasText: '4711 crown 21' }).waitFor();
  expect(await page.locator('.file-name').innerText()).toBe('other.jpg');
  await close();
});

it('writes nothing over a case that is emptied in the moment in which the page goes', async () => {
  const { page, close } = await onTray();
  await page.getByRole('button', { name: /Take .*off/ }).first().evaluate((button: HTMLElement) => {
    button.click();
    setTimeout(() => location.reload(), 50);
  });
  await page.waitForEvent('load');
  await menu(page, 'Cases on this device');
  await page.getByRole('dialog').getByRole('listitem').filter({ hasText: 'other.jpg' }).waitFor();
  await close();
});

it('keeps what is open when a file is no case, and runs nothing that stands in one', async () => {
  const { file } = await savedDemo({ label: '<img src=x onerror="window.hurt=1">' });
  const { page, errors, close } = await visit();
  await openDemo(page);
  const before = await numbers(page);
  const alert = page.locator('.messages').getByRole('alert');
  const bad: [string, Buffer][] = [
    ['empty.tabside', Buffer.alloc(0)],
    ['text.tabside', Buffer.from('this is no case')],
    ['half.tabside', file.buffer.subarray(0, file.buffer.length >> 1)],
    ['changed.tabside', Buffer.from(file.buffer.map((byte, i) => (i === file.buffer.length - 600_000 ? byte ^ 1 : byte)))],
  ];
  for (const [name, buffer] of bad) {
    await openCaseFile(page, { ...file, name, buffer });
    await alert.filter({ hasText: `${name} could not be opened as a case.` }).waitFor();
    expect(await alert.innerText()).toMatch(/could not be opened as a case\.\n+\S.{20,}/);
    expect(await numbers(page)).toEqual(before);
  }
  await openCaseFile(page, file);
  await outcome(page).filter({ hasText: 'The same numbers' }).waitFor();
  expect(await page.locator('.opened-file').innerText()).toContain('<img src=x onerror=');
  expect(await page.evaluate(() => (window as { hurt?: number }).hurt)).toBeUndefined();
  expect(errors).toEqual([]);
  await close();
});
