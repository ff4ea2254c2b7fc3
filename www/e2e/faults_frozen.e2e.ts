/** A page that is hidden, frozen and woken again loses nothing, and has kept what was done before it was frozen. */
import type { CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { address, closeBrowser, openBrowser, visit } from './browser';
import { openDepths, settled } from './desk';
import { another, kept, shows, stored, writeNote } from './keeping_case';
import { dropSmall, openSmall } from './faults_small';

beforeAll(openBrowser);
afterAll(closeBrowser);

const freeze = (cdp: CDPSession, state: 'frozen' | 'active') => cdp.send('Page.setWebLifecycleState', { state });
const noteIn = async (page: Page): Promise<unknown[]> => (await stored(page, 'docs')).flatMap(({ doc }) => doc.photos.map((p: { notes: { text: string }[] }) => p.notes[0]?.text));

it('keeps what was typed a moment before it is frozen, and goes on when it is woken', async () => {
  const { page, errors, close } = await visit();
  await openSmall(page, 'a.jpg');
  await openDepths(page);
  await writeNote(page, '');
  await kept(page, 1);
  const other = await another(page.context(), address());
  const cdp = await page.context().newCDPSession(page);
  for (const text of ['one', 'two']) {
    await page.bringToFront();
    await page.getByLabel('Text of note 1').fill(text);
    await freeze(cdp, 'frozen');
    // Nothing runs there any more; the other window looks.
    await expect.poll(() => noteIn(other.page), { timeout: 3000 }).toEqual([text]);
    await freeze(cdp, 'active');
    await settled(page);
    expect(await page.getByLabel('Text of note 1').inputValue()).toBe(text);
  }
  await page.getByLabel('Text of note 1').fill('three');
  await expect.poll(() => noteIn(page), { timeout: 5000 }).toEqual(['three']);
  expect([...errors, ...other.errors]).toEqual([]);
  await close();
});

it.each([['hidden', 'visibilitychange'], ['frozen', 'freeze']])('begins to write before the page is %s, without waiting for a timer', async (_, happens) => {
  const { page, errors, close } = await visit();
  await openSmall(page, 'a.jpg');
  await openDepths(page);
  await writeNote(page, '');
  await kept(page, 1);
  const began = await page.getByLabel('Text of note 1').evaluate(async (field, happens) => {
    const { transaction } = IDBDatabase.prototype;
    let writes = 0;
    IDBDatabase.prototype.transaction = function (...given) {
      if (given[1] === 'readwrite') writes++;
      return transaction.apply(this, given);
    };
    (field as HTMLTextAreaElement).value = 'hidden';
    field.dispatchEvent(new Event('input', { bubbles: true }));
    if (happens === 'visibilitychange') Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
    document.dispatchEvent(new Event(happens));
    // Before any timer of the page: a hidden page may get none.
    for (let i = 0; i < 200; i++) await Promise.resolve();
    return writes;
  }, happens);
  expect(began).toBe(1);
  await expect.poll(() => noteIn(page), { timeout: 5000 }).toEqual(['hidden']);
  expect(errors).toEqual([]);
  await close();
});

it('finishes what it was at when it was frozen: a photo that is opened, and a tray', async () => {
  const { page, errors, close } = await visit();
  const cdp = await page.context().newCDPSession(page);
  await dropSmall(page, 'a.jpg');
  await freeze(cdp, 'frozen');
  await new Promise((done) => setTimeout(done, 1500));
  await freeze(cdp, 'active');
  await shows(page, 'a.jpg');
  await page.locator('.modes').getByRole('button', { name: 'Tray' }).click();
  await dropSmall(page, 'b.jpg', 'c.jpg', 'd.jpg');
  await page.waitForTimeout(300);
  await freeze(cdp, 'frozen');
  await new Promise((done) => setTimeout(done, 1500));
  await freeze(cdp, 'active');
  await expect.poll(() => page.locator('.tray-row', { hasText: 'tabs' }).count(), { timeout: 30_000 }).toBe(4);
  await kept(page, 4);
  expect(errors).toEqual([]);
  await close();
});
