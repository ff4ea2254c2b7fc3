/** A case is there again, and reads the same, in every engine. */
import { describe, expect, it } from 'vitest';
import { address } from '../browser';
import { rest } from './driver';
import { driven, ENGINES } from './engines';
import { anew, DEMO_PHOTO, loaded, openDepths, readingShown } from './job';

describe.each(ENGINES)('%s', (_, open) => {
  const at = driven(open);

  it('keeps a photo of one’s own with its outlines over a new start', async () => {
    await anew(at.driver);
    await loaded(at.driver);
    await at.driver.setFiles({ button: 'Open a photo' }, DEMO_PHOTO);
    await at.driver.waitFor('card, tabs and teeth are outlined', () => document.querySelectorAll('.outline').length > 3);
    await readingShown(at.driver);
    await openDepths(at.driver);
    const before = await at.driver.text('.numbers table');
    await rest(1500);
    await at.driver.goto(address());
    await at.driver.waitFor('the photo is there again', () => document.querySelector('.file-name')?.textContent === 'demo.jpg');
    await readingShown(at.driver);
    await openDepths(at.driver);
    expect(await at.driver.text('.numbers table')).toBe(before);
    // It is the picture itself that is here.
    expect(await at.driver.evaluate(() => document.querySelector('.absent-line'))).toBeNull();
    expect(await at.driver.errors()).toEqual([]);
  });
});
