/** "What is kept where, and how to erase it": the words, and that it is erased. */
import type { Page } from 'playwright-core';
import { afterEach, beforeAll, expect, it } from 'vitest';
import { words as german } from '../src/words/de';
import { words as spanish } from '../src/words/es';
import { complaints, cramped } from './axe';
import { menu, openDemo } from './desk';
import { builtFiles, startServer, type Files, type PageServer } from './offline_server';
import { copyKept, visitor, type Visitor } from './offline_visit';
import { SIZES, useDemoStains } from './passes_case';

let files: Files;
let server: PageServer;
let visit: Visitor;
beforeAll(async () => void (files = await builtFiles()));
afterEach(async () => {
  await visit?.close();
  await server?.stop();
});

async function arrive(options: Parameters<typeof visitor>[1] = {}): Promise<Page> {
  server = await startServer(files);
  visit = await visitor(server, options);
  const page = await visit.open();
  await copyKept(page);
  return page;
}

const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();

/** Something in every place, and something of somebody else. */
async function fill(page: Page): Promise<void> {
  await openDemo(page);
  await useDemoStains(page);
  await page.evaluate(async () => {
    localStorage.setItem('tabside.settings.1', '{"surround":"light"}');
    localStorage.setItem('other.program', 'stays');
    const request = indexedDB.open('tabside');
    await new Promise<void>((done, failed) => {
      request.onsuccess = () => (request.result.close(), done());
      request.onerror = () => failed(request.error);
    });
    await caches.open('other-program');
  });
}

const kept = (page: Page) =>
  page.evaluate(async () => ({
    databases: (await indexedDB.databases()).map(({ name }) => name),
    keys: Object.keys(localStorage).sort(),
    caches: await caches.keys(),
    workers: (await navigator.serviceWorker.getRegistrations()).length,
  }));

it('erases everything that was kept, after asking, and nothing of anybody else', async () => {
  const page = await arrive();
  await fill(page);
  const before = await kept(page);
  expect([before.databases, before.caches.length, before.workers, before.keys.length > 2]).toEqual([['tabside'], 2, 1, true]);
  await menu(page, 'What is kept where');
  await press(page, 'Erase everything kept on this device');
  await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe('No, keep it');
  await press(page, 'No, keep it');
  expect(await kept(page)).toEqual(before);

  await press(page, 'Erase everything kept on this device');
  await press(page, 'Yes, erase it all now');
  await page.getByRole('heading', { name: 'Everything kept on this device is erased.' }).waitFor();
  const gone = { databases: [], keys: ['other.program'], caches: ['other-program'], workers: 0 };
  expect(await kept(page)).toEqual(gone);
  // What was still under way keeps nothing again.
  await page.waitForTimeout(2500);
  expect(await kept(page)).toEqual(gone);
  await Promise.all([page.waitForEvent('load'), press(page, 'Begin anew')]);
  expect(await page.evaluate(() => document.documentElement.dataset['surround'])).toBe('dark');
  await page.getByRole('button', { name: 'Look at the demo' }).waitFor();
  await copyKept(page);
  expect(visit.errors).toEqual([]);
});

it('says what it could not erase while another window holds it, and erases it when that is closed', async () => {
  const page = await arrive();
  await fill(page);
  const other = await visit.context.newPage();
  // A window of an older version, that lets go of nothing.
  await other.goto(`${server.url}icon.svg`);
  await other.evaluate(() => new Promise<void>((done) => Object.assign(indexedDB.open('tabside'), { onsuccess: () => done() })));
  await menu(page, 'What is kept where');
  await press(page, 'Erase everything kept on this device');
  await press(page, 'Yes, erase it all now');
  await page.getByRole('heading', { name: 'Not everything could be erased.' }).waitFor();
  await page.getByText('another window of Tabside holds them open').waitFor();
  expect((await kept(page)).keys).toEqual(['other.program']);
  await other.close();
  await press(page, 'Try again');
  await page.getByRole('heading', { name: 'Everything kept on this device is erased.' }).waitFor();
  expect((await kept(page)).databases).toEqual([]);
});

it.each(Object.entries(SIZES))('is whole and readable in three languages (%s)', async (_, viewport) => {
  const page = await arrive({ viewport, bypassCSP: true });
  await menu(page, 'What is kept where');
  const dialog = page.locator('.dialog.privacy');
  for (const [tag, words] of [['en', null], ['de', german], ['es', spanish]] as const) {
    if (words) {
      await page.evaluate((language) => localStorage.setItem('tabside.settings.1', JSON.stringify({ language })), tag);
      await page.reload();
      await page.getByRole('button', { name: words.menu.more, exact: true }).click();
      await page.getByRole('button', { name: words.menu.kept, exact: true }).click();
    }
    await dialog.waitFor();
    if (words) expect(await dialog.getByRole('heading').first().innerText()).toBe(words.privacy.title);
    await dialog.getByRole('button').last().click();
    expect(await complaints(page)).toEqual([]);
    expect(await cramped(page)).toEqual({ overflow: false, small: [] });
    expect(await dialog.locator('.dialog-body').evaluate((e) => e.scrollWidth - e.clientWidth)).toBe(0);
  }
});
