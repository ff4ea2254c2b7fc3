/** A case is there again, and reads the same, in every engine. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { address } from '../browser';
import type { Driver } from './driver';
import { ENGINES, SIZES } from './engines';
import { anew, DEMO_PHOTO, loaded, openDepths, readingShown } from './job';

/** Nothing would be lost: the browser would not ask before the page is left. */
const safe = (driver: Driver) => driver.evaluate(() => localStorage.getItem('tabside.case.1') !== null && window.dispatchEvent(new Event('beforeunload', { cancelable: true })));

describe.each(ENGINES)('%s', (_, open) => {
  let driver: Driver;
  beforeAll(async () => {
    driver = await open();
    await driver.setViewport(SIZES[0]!);
  });
  afterAll(() => driver?.close());

  it('keeps a photo of one’s own with its outlines over a new start', async () => {
    await anew(driver);
    await loaded(driver);
    await driver.setFiles({ button: 'Open a photo' }, DEMO_PHOTO);
    await driver.waitFor('card, tabs and teeth are outlined', () => document.querySelectorAll('.outline').length > 3);
    await readingShown(driver);
    await openDepths(driver);
    const before = await driver.text('.numbers table');
    // A change of one's own is what it would ask for.
    await driver.click('.shape-list .chips button');
    await driver.type('#shape-editor input', '5');
    await expect.poll(() => safe(driver), { timeout: 10_000 }).toBe(true);
    await driver.goto(address());
    await driver.waitFor('the photo is there again', () => document.querySelector('.file-name')?.textContent === 'demo.jpg');
    await readingShown(driver);
    await openDepths(driver);
    expect(await driver.text('.numbers table')).toBe(before);
    expect(await driver.errors()).toEqual([]);
  });
});
