/** What tests of keeping do again and again: photos that differ, and a look into the page's database. */
import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import { drop, fixture, menu, settled, type Given } from './desk';

/** The same picture as another file. */
export const photo = (name: string): Given => ({ name, mimeType: 'image/jpeg', buffer: Buffer.concat([readFileSync(fixture('scenes/other.jpg')), Buffer.from(name)]) });

/** Opened, searched and read. */
export async function openOne(page: Page, file: Given): Promise<void> {
  await drop(page, file);
  await shows(page, file.name);
  await page.locator('.guide-note').waitFor({ state: 'attached' });
  await settled(page);
}

export const shows = (page: Page, name: string): Promise<void> => page.locator('.file-name', { hasText: name }).waitFor();

/** All of a store of the page's database; photos by their size. */
export const stored = (page: Page, store: 'cases' | 'docs' | 'photos' | 'desk'): Promise<any[]> =>
  page.evaluate(async (store) => {
    // To open it would make it.
    if (!(await indexedDB.databases()).some(({ name }) => name === 'tabside')) return [];
    const asked = indexedDB.open('tabside');
    const db = await new Promise<IDBDatabase>((done, fail) => ((asked.onsuccess = () => done(asked.result)), (asked.onerror = () => fail(asked.error))));
    try {
      if (!db.objectStoreNames.contains(store)) return [];
      const all = db.transaction(store).objectStore(store).getAll();
      const found = await new Promise<any[]>((done) => (all.onsuccess = () => done(all.result)));
      return found.map((one) => JSON.parse(JSON.stringify(one, (_, v: unknown) => (v instanceof Blob ? { size: v.size } : v))) as unknown);
    } finally {
      db.close();
    }
  }, store);

/** Waits until what is on the desk is kept. */
export async function kept(page: Page, photos: number): Promise<void> {
  const deadline = Date.now() + 10_000;
  for (;;) {
    const docs = await stored(page, 'docs');
    const heads = await stored(page, 'cases');
    if (docs.some(({ id, doc }) => doc.photos?.length === photos && doc.photos.every((p: { here: boolean }) => p.here) && heads.some((h) => h.id === id))) break;
    if (Date.now() > deadline) throw new Error(`not kept: ${JSON.stringify(docs).slice(0, 300)}`);
    await page.waitForTimeout(100);
  }
  await page.waitForTimeout(700);
}

export async function writeNote(page: Page, text: string): Promise<void> {
  await page.locator('.view-buttons').getByRole('button', { name: 'Add a note' }).click();
  await page.locator('#note-middle').click();
  await page.getByLabel('Text of note 1').fill(text);
}

export async function showCases(page: Page): Promise<void> {
  await menu(page, 'Cases on this device');
  await page.locator('.dialog.cases').waitFor();
}

export const rowOf = (page: Page, name: string) => page.locator('.case-row', { has: page.getByRole('heading', { name, exact: true }) });

export async function nameCase(page: Page, label: string): Promise<void> {
  await showCases(page);
  const row = page.locator('.case-row.looked');
  await row.getByRole('button', { name: /^Rename/ }).click();
  await row.getByLabel('Label').fill(label);
  await page.keyboard.press('Enter');
  await rowOf(page, label).waitFor();
  await page.keyboard.press('Escape');
}

/** Another window of the same browser. */
export async function another(context: BrowserContext, url: string): Promise<{ page: Page; errors: string[] }> {
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('filechooser', () => {});
  await page.goto(url);
  return { page, errors };
}
