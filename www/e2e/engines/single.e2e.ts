/** The single-file edition from a file's address, in every engine: the numbers are those of the served page. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { words as german } from '../../src/words/de';
import { address } from '../browser';
import { buildSingle, type Single } from '../single_build';
import type { Driver } from './driver';
import { driven, ENGINES } from './engines';
import { coats, openDemo, patientBack, patientShown, planShown } from './job';

let single: Single;
beforeAll(async () => void (single = await buildSingle()), 120_000);
afterAll(() => single?.remove());

/** Of a script at a file's address WebKit tells no more than this; a size that took two frames to settle is told so, too. */
const errorsOf = async (driver: Driver): Promise<string[]> => (await driver.errors()).filter((text) => text !== 'Script error.');

async function job(driver: Driver, url: string): Promise<unknown> {
  await driver.goto(url);
  await openDemo(driver);
  const numbers = await driver.text('.numbers table');
  await planShown(driver);
  const told = { numbers, coats: await coats(driver), patient: await patientShown(driver) };
  await patientBack(driver);
  return told;
}

describe.each(ENGINES)('%s', (_, open) => {
  const at = driven(open);

  it('demo, reading, plan and patient as on the served page; another language; a reload', async () => {
    const served = await job(at.driver, address());
    const inFile = await job(at.driver, single.url);
    expect(inFile).toEqual(served);
    expect((served as { numbers: string }).numbers.length).toBeGreaterThan(200);
    expect((await at.driver.requests()).filter((url) => url !== single.url && !/^(blob|data):/.test(url))).toEqual([]);
    expect(await errorsOf(at.driver)).toEqual([]);

    await at.driver.click({ button: 'More' });
    await at.driver.click({ button: 'Settings' });
    await at.driver.click('.dialog.settings label[lang=de]');
    await at.driver.waitFor('the page speaks German', () => document.documentElement.lang === 'de');
    await at.driver.goto(single.url);
    await at.driver.waitFor('it is remembered', () => document.documentElement.lang === 'de');
    await at.driver.waitFor('the page is there', (more) => [...document.querySelectorAll('button')].some((b) => b.textContent === more), german.menu.more);
    expect(await errorsOf(at.driver)).toEqual([]);
  });
});
