/** A case is there again, and reads the same, in every engine. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { address } from '../browser';
import { rest, type Driver } from './driver';
import { ENGINES, SIZES } from './engines';
import { anew, DEMO_PHOTO, loaded, openDepths, readingShown } from './job';

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
    await rest(1500);
    await driver.goto(address());
    await driver.waitFor('the photo is there again', () => document.querySelector('.file-name')?.textContent === 'demo.jpg');
    await readingShown(driver);
    await openDepths(driver);
    expect(await driver.text('.numbers table')).toBe(before);
    // It is the picture itself that is here.
    expect(await driver.evaluate(() => document.querySelector('.absent-line'))).toBeNull();
    expect(await driver.errors()).toEqual([]);
  });
});
