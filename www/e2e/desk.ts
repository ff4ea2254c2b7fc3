/** What a user does, in the page's own words. */
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import type { Point } from '../src/engine/types';

export const fixture = (path: string): string => fileURLToPath(new URL(`../../fixtures/${path}`, import.meta.url));

export interface Zone {
  l: number;
  a: number;
  b: number;
}

/** Waits until the reading of the scene as it stands is shown. */
export async function settled(page: Page): Promise<void> {
  await page.locator('#reading[aria-busy=false]').waitFor({ state: 'attached' });
}

/** Opens everything that is one tap away in the panel; on a phone, where it is not on show, too. */
export async function openDepths(page: Page): Promise<void> {
  await page.evaluate(() => document.querySelectorAll<HTMLElement>('.depth > h2 > button[aria-expanded=false]').forEach((button) => button.click()));
}

/** The demo with all its depth open. */
export async function openDemo(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await settled(page);
  await openDepths(page);
}

/** As on a first visit: nothing is kept. */
export async function anew(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await new Promise((done) => (indexedDB.deleteDatabase('tabside').onsuccess = done));
    localStorage.clear();
    sessionStorage.clear();
  });
  await page.reload();
}

export async function pick(page: Page, press: () => Promise<void>, file: string | { name: string; mimeType: string; buffer: Buffer }): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), press()]);
  await chooser.setFiles(file as string);
}

export async function openPhoto(page: Page, file: string | { name: string; mimeType: string; buffer: Buffer }): Promise<void> {
  const start = page.getByRole('button', { name: 'Open a photo' });
  const press = async () => ((await start.isVisible()) ? start : page.getByRole('button', { name: 'Open photo' }).first()).click();
  await pick(page, press, file);
}

export async function menu(page: Page, item: string): Promise<void> {
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.locator('#menu-list').getByRole('button', { name: item }).click();
}

/** Numbers of the table, by region and zone. */
export async function numbers(page: Page): Promise<Record<string, Record<string, Zone>>> {
  // What is folded follows only when all is at rest.
  await openDepths(page);
  return page.evaluate(() => {
    const value = (row: Element, key: string) => Number(row.querySelector(`[data-number=${key}]`)?.textContent?.replace('−', '-'));
    const out: Record<string, Record<string, { l: number; a: number; b: number }>> = {};
    for (const body of document.querySelectorAll<HTMLElement>('.numbers tbody')) {
      const zones = (out[body.dataset['region']!] = {} as Record<string, { l: number; a: number; b: number }>);
      for (const row of body.querySelectorAll<HTMLElement>('tr')) {
        zones[row.dataset['zone']!] = { l: value(row, 'l'), a: value(row, 'a'), b: value(row, 'b') };
      }
    }
    return out;
  });
}

/** A place in the photo on the screen. */
export async function onScreen(page: Page, [x, y]: readonly [number, number], photoWidth: number): Promise<[number, number]> {
  const box = (await page.locator('canvas.photo').boundingBox())!;
  const k = box.width / photoWidth;
  return [box.x + x * k, box.y + y * k];
}

/** Waits until a photo that was opened has been searched. */
export async function found(page: Page): Promise<void> {
  await page.locator('.guide-note').waitFor({ state: 'attached' });
  await openDepths(page);
}

/** An outline as it lies on the screen, in photo pixels. */
export async function outlineOn(page: Page, key: string, photoWidth: number): Promise<Point[]> {
  const { d, left, top, width } = await page.locator(`.outline[data-shape="${key}"] .line`).evaluate((line) => {
    const stage = line.closest('.stage')!.getBoundingClientRect();
    const canvas = document.querySelector('canvas.photo')!.getBoundingClientRect();
    return { d: line.getAttribute('d')!, left: canvas.left - stage.left, top: canvas.top - stage.top, width: canvas.width };
  });
  const k = width / photoWidth;
  return [...d.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [(Number(x) - left) / k - 0.5, (Number(y) - top) / k - 0.5]);
}

/** Takes away everything that was found, for tests of marking by hand. */
export async function unfound(page: Page): Promise<void> {
  await found(page);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.locator('.outline').first().waitFor({ state: 'detached' });
}

/** A file as a browser's chooser, or a drop, gives it. */
export interface Given {
  name: string;
  mimeType: string;
  buffer: Buffer;
}

/** As if dragged in from a folder. */
export async function drop(page: Page, ...files: Given[]): Promise<void> {
  // Before the page stands nobody listens.
  await page.locator('.top-bar').waitFor();
  const given = files.map(({ name, mimeType, buffer }) => ({ name, mimeType, bytes: buffer.toString('base64') }));
  await page.evaluate((given) => {
    const data = new DataTransfer();
    for (const { name, mimeType, bytes } of given) data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name, { type: mimeType }));
    window.dispatchEvent(new DragEvent('drop', { dataTransfer: data }));
  }, given);
}
