/** A photo in which nothing stands out, a case without its photo, and calls that are never answered. */
import type { Page } from 'playwright-core';
import type { Point } from '../src/engine/types';
import { saveCase } from './case_save';
import { openDemo, type Given } from './desk';

/**
 * Even in a plain grey a tap gives an outline. Between stripes of colours that no tooth has it gives none,
 * at this place and half a pixel around it; where the search has changed, another one must be looked for.
 */
export const STRIPED = { width: 200, nothingAt: [100, 66] as Point };

export async function striped(page: Page): Promise<Given> {
  const bytes = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(200, 150);
    const context = canvas.getContext('2d')!;
    for (let i = 0; i < 30; i++) {
      context.fillStyle = `hsl(${((i % 6) * 137) % 360} 100% ${[50, 20, 80][i % 3]}%)`;
      context.fillRect(0, 5 * i, 200, 5);
    }
    return [...new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer())];
  });
  return { name: 'striped.png', mimeType: 'image/png', buffer: Buffer.from(bytes) };
}

/** The demo as a case file without its photo. */
export async function withoutPhoto(page: Page): Promise<Given> {
  await openDemo(page);
  return { ...(await saveCase(page, { photos: 'None' })), name: 'bare.tabside' };
}

/** Before the page's own scripts: the next question of that name is not answered. */
export async function holdNext(page: Page): Promise<(call: string) => Promise<void>> {
  await page.addInitScript(() => {
    const held = { call: '' };
    Object.assign(window, { held });
    window.Worker = class extends Worker {
      override postMessage(message: { call?: string }, ...rest: []): void {
        if (message.call === held.call) held.call = '';
        else super.postMessage(message, ...rest);
      }
    };
  });
  await page.reload();
  return (call) => page.evaluate((call) => void ((window as unknown as { held: { call: string } }).held.call = call), call);
}

/** An outline is moved, and the reading of it, which does not come, cancelled. */
export async function cancelReading(page: Page, hold: (call: string) => Promise<void>): Promise<void> {
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button').nth(1).click();
  await hold('read');
  await page.locator('.handle.move').focus();
  await page.keyboard.press('ArrowDown');
  await page.locator('.busy').getByRole('button', { name: 'Cancel' }).click();
}

/** What the page says of an error: its title, what happened and what to do. */
export async function said(page: Page, title: string): Promise<string> {
  const alert = page.getByRole('alert').filter({ hasText: title });
  await alert.waitFor();
  return (await alert.innerText()).replace(/\s+/g, ' ');
}
