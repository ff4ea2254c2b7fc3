/** The demo's photo at a fraction of its size, with its card, tabs and teeth: what is done with it is quick. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { drop, fixture, settled, type Given } from './desk';
import { shows } from './keeping_case';

const WIDTH = 640;
let made: Buffer | undefined;

/** `right`: the grey that the light is multiplied by at the right edge; none at the left one. */
async function make(page: Page, right = 'white'): Promise<Buffer> {
  const text = await page.evaluate(
    async ([text, width, right]) => {
      const picture = await createImageBitmap(new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], { type: 'image/jpeg' }));
      const canvas = new OffscreenCanvas(width, Math.round((width * picture.height) / picture.width));
      const pen = canvas.getContext('2d')!;
      pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
      const fall = pen.createLinearGradient(0, 0, width, 0);
      fall.addColorStop(0, 'white');
      fall.addColorStop(1, right);
      Object.assign(pen, { globalCompositeOperation: 'multiply', fillStyle: fall }).fillRect(0, 0, width, canvas.height);
      const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.85 })).arrayBuffer());
      return btoa(bytes.reduce((all, byte) => all + String.fromCharCode(byte), ''));
    },
    [readFileSync(fixture('demo/demo.jpg')).toString('base64'), WIDTH, right] as const,
  );
  return Buffer.from(text, 'base64');
}

/** The same picture as another file for each name. */
export async function small(page: Page, ...names: string[]): Promise<Given[]> {
  const bytes = (made ??= await make(page));
  return names.map((name) => ({ name, mimeType: 'image/jpeg', buffer: Buffer.concat([bytes, Buffer.from(name)]) }));
}

/** In light so uneven that no numbers are shown. */
export const uneven = async (page: Page, name: string): Promise<Given> => ({ name, mimeType: 'image/jpeg', buffer: await make(page, '#444') });

/** Dropped on the page. */
export const dropSmall = async (page: Page, ...names: string[]): Promise<void> => drop(page, ...(await small(page, ...names)));

/** Opened, searched and read. */
export async function openSmall(page: Page, name: string): Promise<void> {
  await dropSmall(page, name);
  await shows(page, name);
  await page.locator('.guide-note').waitFor({ state: 'attached' });
  await settled(page);
}
