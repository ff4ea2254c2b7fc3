import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { drop, openDemo } from './desk';

beforeAll(openBrowser);
afterAll(closeBrowser);

const open = async (page: Page) => {
  await page.getByRole('button', { name: 'More', exact: true }).click();
  return page.locator('#menu-list');
};

it('stands under its heads, in the order in which it is read', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const list = await open(page);
  expect(await list.getByRole('heading').allInnerTexts()).toEqual(['Photo', 'Case', 'Numbers and files', 'Laboratory and patient', 'This page']);
  const items = await list.getByRole('list', { name: 'Photo' }).getByRole('button').allInnerTexts();
  expect(items[0]).toBe('Open photo');
  expect(await list.getByRole('list', { name: 'This page' }).getByRole('button').last().innerText()).toBe('Settings');
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Open photo');
  await close();
});

it.each([[1180, 820], [820, 1180], [1440, 900]])('is seen whole in two columns, %i × %i', async (width, height) => {
  const { page, close } = await visit({ viewport: { width, height } });
  await openDemo(page);
  const list = await open(page);
  const [first, last] = [await list.getByRole('button', { name: 'Open photo' }).boundingBox(), await list.getByRole('button', { name: 'Settings' }).boundingBox()];
  expect(last!.x).toBeGreaterThan(first!.x + 100);
  expect(await list.evaluate((e) => [e.scrollHeight - e.clientHeight, e.scrollWidth - e.clientWidth])).toEqual([0, 0]);
  const box = (await list.boundingBox())!;
  expect([box.x >= 0, box.x + box.width <= width, box.y + box.height <= height]).toEqual([true, true, true]);
  await close();
});

it.each([['100%', 390, 844], ['200%', 390, 844], ['200%', 1180, 620], ['100%', 844, 390]])('shows by a cut row that it goes on, text of %s, %i × %i', async (text, width, height) => {
  const { page, close } = await visit({ viewport: { width, height } });
  await openDemo(page);
  await page.evaluate((size) => (document.documentElement.style.fontSize = size), text);
  const list = await open(page);
  const box = (await list.boundingBox())!;
  expect([box.x >= 0, box.x + box.width <= width, box.y + box.height <= height]).toEqual([true, true, true]);
  const cut = await list.evaluate((e) => {
    const end = e.getBoundingClientRect().bottom - 1;
    return [...e.querySelectorAll('button')].some((row) => {
      const { top, bottom, height } = row.getBoundingClientRect();
      return top < end - 0.25 * height && bottom > end + 0.25 * height;
    });
  });
  expect(cut).toBe(true);
  await list.getByRole('button', { name: 'Settings' }).click();
  await page.getByRole('dialog').waitFor();
  await close();
});

it.each([[1180, 820], [820, 1180], [390, 844]])('has every word in front of what is being said, %i × %i', async (width, height) => {
  const { page, close } = await visit({ viewport: { width, height } });
  await openDemo(page);
  await drop(page, { name: 'none.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('none') });
  await page.getByRole('alert').filter({ hasText: 'none.jpg' }).waitFor();
  const list = await open(page);
  const covered = await list.evaluate((e) =>
    [...e.querySelectorAll('button')].filter((row) => {
      row.scrollIntoView({ block: 'nearest' });
      const { left, top, width, height } = row.getBoundingClientRect();
      return document.elementFromPoint(left + width / 4, top + height / 2)?.closest('button') !== row;
    }).map((row) => row.textContent),
  );
  expect(covered).toEqual([]);
  await close();
});

it('is closed by Escape wherever the focus is', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const list = await open(page);
  await list.getByRole('heading', { name: 'Photo' }).click();
  await page.keyboard.press('Escape');
  expect(await list.isVisible()).toBe(false);
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('More');
  await close();
});

/** Bar, modes and the photo's own buttons: whatever of them another thing lies over. */
const coveredInBar = (page: Page) =>
  page.locator('.top-bar, .modes, .view-buttons').evaluateAll((bars) =>
    bars.flatMap((bar) => [...bar.querySelectorAll(':scope > button, :scope > .menu > button')]).filter((button) => {
      const { left, top, width, height } = button.getBoundingClientRect();
      return width > 0 && document.elementFromPoint(left + width / 2, top + height / 2)?.closest('button') !== button;
    }).map((button) => button.textContent),
  );

it.each([[320, 568], [390, 844], [640, 900], [820, 1180], [1000, 700], [1180, 820]])('is left free with its modes and the photo’s buttons by what is being said, %i × %i', async (width, height) => {
  const { page, close } = await visit({ viewport: { width, height } });
  const say = async () => {
    await drop(page, { name: 'none.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('none') });
    await page.getByRole('alert').filter({ hasText: 'none.jpg' }).waitFor();
    return coveredInBar(page);
  };
  expect(await say()).toEqual([]);
  await openDemo(page);
  expect(await say()).toEqual([]);
  await page.locator('.modes').getByRole('button', { name: 'Tray' }).click();
  await page.locator('.modes [aria-pressed=true]', { hasText: 'Tray' }).waitFor();
  expect(await say()).toEqual([]);
  await close();
});

/** Undo and redo are longer words than in English. */
it.each([['de', 'Demo ansehen', 'Wiederholen', 'Mehr'], ['es', 'Ver la demostración', 'Rehacer', 'Más']])('has its bar in one row on a phone, %s', async (locale, demo, redo, more) => {
  const { page, close } = await visit({ viewport: { width: 390, height: 844 }, locale });
  await page.getByRole('button', { name: demo }).click();
  await page.locator('#reading[aria-busy=false]').waitFor({ state: 'attached' });
  const tops = await Promise.all([redo, more].map(async (name) => (await page.locator('.top-bar').getByRole('button', { name, exact: true }).boundingBox())!.y));
  expect(tops[1]).toBe(tops[0]);
  await close();
});
