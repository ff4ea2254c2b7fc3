/** A page that stands still: one size, one language, one moment, nothing that moves. */
import type { Browser, Page } from 'playwright-core';
import { address } from '../browser';
import type { Size } from './driver';

/** The minute that every golden was made in. The drying clock stands, too. */
const MOMENT = new Date('2031-05-14T10:12:00Z');

export async function stillPage(browser: Browser, viewport: Size): Promise<Page> {
  const context = await browser.newContext({ viewport, locale: 'en-US', timezoneId: 'UTC', reducedMotion: 'reduce', colorScheme: 'dark', deviceScaleFactor: 1 });
  const page = await context.newPage();
  await page.clock.setFixedTime(MOMENT);
  await page.goto(address());
  await page.locator('.privacy').waitFor();
  return page;
}

/** Two pictures taken one after another are the same: whatever was still to be drawn has been. */
export async function still(page: Page): Promise<Buffer> {
  // The pointer must not light up what happens to lie under it.
  await page.mouse.move(0, 0);
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  // The demo's photo is shown by its finer copy, every third pixel of 3600.
  await page.waitForFunction(() => [...document.querySelectorAll<HTMLCanvasElement>('canvas.photo')].every((c) => c.width >= 1200));
  const take = () => page.screenshot({ animations: 'disabled', caret: 'hide', scale: 'css' });
  for (let before = await take(), tries = 0; ; tries++) {
    await page.waitForTimeout(150);
    const now = await take();
    if (now.equals(before)) return now;
    if (tries > 40) throw new Error('The page does not come to rest.');
    before = now;
  }
}

/** Canvases that are there and have something on them. */
export async function pictures(page: Page, selector: string, least: number): Promise<void> {
  await page.waitForFunction(
    ([css, n]) => {
      const all = [...document.querySelectorAll<HTMLCanvasElement>(css)];
      return all.length >= n && all.every((c) => c.getContext('2d')!.getImageData(c.width >> 1, c.height >> 1, 1, 1).data[3]! > 0);
    },
    [selector, least] as const,
  );
}

export const narrowPage = (page: Page): Promise<boolean> => page.evaluate(() => matchMedia('(max-width: 640px)').matches);
