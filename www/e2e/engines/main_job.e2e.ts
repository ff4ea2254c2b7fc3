/**
 * The main job in three engines and at four sizes: demo → answer → plan, and a photo of one's own.
 * Invariant 8: the same bytes give the same reading, bit for bit, whatever the browser; so everything
 * that the worker answers, and every number as it is shown, is compared across the engines.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, onTestFailed } from 'vitest';
import { modes } from '../../src/words/modes';
import { address } from '../browser';
import type { Driver } from './driver';
import { ENGINES, SIZES, sizeName } from './engines';
import { low, overhear, overheard, wide } from './in_page';
import { anew, askedSince, coats, DEMO_PHOTO, loaded, openDemo, openDepths, patientBack, patientShown, planned, planShown, readingShown, show, typeColours } from './job';

/** What must have crossed from the worker: the photo, its picture as shown at first, the whole report, the whole plan. */
const ANSWERS = ['open', 'glimpse 2000000', 'read', 'plan'];

/** By what was looked at, then by engine. */
const seen = new Map<string, Map<string, unknown>>();
const FAILED = fileURLToPath(new URL('../../../target/engines/', import.meta.url));

describe.each(ENGINES)('%s', (name, open) => {
  let driver: Driver;
  const note = (what: string, value: unknown) => {
    const byEngine = seen.get(what) ?? new Map<string, unknown>();
    seen.set(what, byEngine.set(name, value));
  };
  beforeAll(async () => {
    driver = await open();
    console.log(`${driver.engine} ${driver.version}`);
  });
  afterAll(() => driver?.close());

  /** What a failed test leaves to look at. */
  const keepPicture = () =>
    onTestFailed(async ({ task }) => {
      mkdirSync(FAILED, { recursive: true });
      writeFileSync(`${FAILED}${name}-${task.name.replace(/\W+/g, '-')}.png`, await driver.screenshot());
    });

  /** Nothing sticks out, every control is large enough for a finger. */
  const fits = async (where: string) => expect([where, await driver.evaluate(wide), await driver.evaluate(low)]).toEqual([where, [], []]);

  it.each(SIZES.map((size) => [sizeName(size), size] as const))('%s: demo → answer → plan → patient', async (at, size) => {
    keepPicture();
    await driver.setViewport(size);
    await anew(driver);
    expect(await driver.evaluate(() => [innerWidth, innerHeight])).toEqual([size.width, size.height]);
    await driver.evaluate(overhear);
    const before = await loaded(driver);
    expect(before.filter((url) => !url.startsWith(address()))).toEqual([]);
    await fits('start');

    await openDemo(driver);
    note(`${at}: numbers`, await driver.text('.numbers table'));
    note(`${at}: reading in words`, await driver.text('#reading'));
    await fits('reading');
    await openDepths(driver);
    await fits('reading, everything open');

    await planShown(driver);
    const bars = await coats(driver);
    expect(bars.length).toBeGreaterThan(0);
    note(`${at}: coats`, bars);
    note(`${at}: plan in words`, await driver.text('.plan-sheet'));
    await fits('plan');
    for (const mode of ['photos', 'swatches', 'practice'] as const) {
      await show(driver, modes.names[mode]);
      await driver.waitFor(`${mode} is shown`, (id) => document.querySelector(id) !== null, `#${mode}`);
      await fits(mode);
    }

    note(`${at}: what the patient reads`, await patientShown(driver));
    await fits('patient');
    // It is about this screen alone: two pictures, all of each, without a scroll.
    expect(await driver.evaluate(() => [...document.querySelectorAll('.patient-pair canvas')].filter((c) => c.getBoundingClientRect().bottom > innerHeight + 1).length)).toBe(0);
    await patientBack(driver);

    const answers = await driver.evaluate(overheard);
    for (const call of ANSWERS) expect(Object.keys(answers)).toContain(call);
    for (const [call, answer] of Object.entries(answers)) note(`${at}: worker’s ${call}`, answer);
    const more = (await askedSince(driver, before)).map((url) => url.slice(address().length));
    expect(more.filter((path) => !/^demo\/(demo\.jpg|scene\.json|demo\.swatches\.json)$/.test(path))).toEqual([]);
    expect(await driver.errors()).toEqual([]);
  });

  it('a photo of one’s own is opened from a file, searched and read', async () => {
    keepPicture();
    await driver.setViewport(SIZES[0]!);
    await anew(driver);
    await driver.evaluate(overhear);
    const before = await loaded(driver);
    await driver.setFiles({ button: 'Open a photo' }, DEMO_PHOTO);
    await driver.waitFor('card, tabs and teeth are outlined', () => document.querySelectorAll('.outline').length > 3);
    await readingShown(driver);
    expect(await driver.text('.file-name')).toBe('demo.jpg');
    note('own photo: numbers', await driver.text('.numbers table'));
    const answers = await driver.evaluate(overheard);
    for (const call of ['open', 'find', 'read']) note(`own photo: worker’s ${call}`, answers[call]);
    expect(await askedSince(driver, before)).toEqual([]);
    expect(await driver.errors()).toEqual([]);
  });

  it('colours that are typed, without a photo, give a plan', async () => {
    keepPicture();
    await driver.setViewport(SIZES[0]!);
    await anew(driver);
    await driver.evaluate(overhear);
    await driver.click({ button: 'Plan by typed colours' });
    await driver.click({ button: 'Typed' });
    await typeColours(driver, { 'Middle third, restoration': ['78', '0.2', '15'], 'Middle third, target': ['74', '1.8', '19'] });
    await planned(driver);
    note('typed: plan in words', await driver.text('.plan-sheet'));
    note('typed: coats', await coats(driver));
    note('typed: worker’s plan', (await driver.evaluate(overheard))['plan']);
    expect(await driver.errors()).toEqual([]);
  });
});

/** Long texts are told apart line by line. */
const inLines = (value: unknown): unknown => (typeof value === 'string' ? value.split(/(?<=[,.;])/) : value);

it('every engine gives the same, bit for bit', () => {
  expect(seen.size).toBeGreaterThan(0);
  const names = ENGINES.map(([name]) => name);
  for (const [what, byEngine] of seen) {
    // Pictures beside the job are made when there is time, and are compared where they were.
    const inAll = !what.includes('worker’s') || ANSWERS.some((call) => what.endsWith(`worker’s ${call}`));
    if (inAll) expect([what, [...byEngine.keys()]]).toEqual([what, names]);
    const [first, ...others] = byEngine.values();
    for (const other of others) expect([what, inLines(other)]).toEqual([what, inLines(first)]);
  }
});
