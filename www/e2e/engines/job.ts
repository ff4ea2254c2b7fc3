/** What a user does, by the page's own words, in any engine. */
import { fileURLToPath } from 'node:url';
import { address } from '../browser';
import { PATIENCE_MS, rest, type Driver } from './driver';
import { locate } from './in_page';

export const DEMO_PHOTO = fileURLToPath(new URL('../../../fixtures/demo/demo.jpg', import.meta.url));

/** How long nothing may be asked for before the page counts as loaded. */
const QUIET_MS = 500;

/** What the page asks for beforehand: WebKit tells of each only when it is there, in whatever order. */
const BEFOREHAND = ['first', 'main', 'parts', 'current', 'restore', 'de', 'es', 'case'].map((name) => new RegExp(`/assets/${name}-[^/]*\\.js$`));

/** Everything that the page fetches beforehand is there. */
export async function loaded(driver: Driver): Promise<string[]> {
  const last = Date.now() + PATIENCE_MS;
  for (let before = -1; ; ) {
    const asked = await driver.requests();
    const missing = BEFOREHAND.filter((piece) => !asked.some((url) => piece.test(url)));
    if (asked.length === before && missing.length === 0) return asked;
    if (Date.now() > last) throw new Error(`${driver.engine}: not asked for beforehand: ${missing.join(', ')}`);
    before = asked.length;
    await rest(QUIET_MS);
  }
}

/** What was asked for since that had not been before. A worker that made way begins anew, by the script the page has: WebKit tells of that again. */
export const askedSince = async (driver: Driver, before: readonly string[]): Promise<string[]> => (await driver.requests()).filter((url) => !before.includes(url));

/** The page as on a first visit: nothing is kept. */
export async function anew(driver: Driver): Promise<void> {
  await driver.goto(address());
  // What is still on its way when a page is left counts as a fault in Firefox.
  await loaded(driver);
  await driver.evaluate(() => {
    const gone = window as { gone?: boolean };
    localStorage.clear();
    sessionStorage.clear();
    indexedDB.deleteDatabase('tabside').onsuccess = () => (gone.gone = true);
    return true;
  });
  await driver.waitFor('nothing is kept', () => (window as { gone?: boolean }).gone);
  await driver.goto(address());
}

export const narrow = (driver: Driver): Promise<boolean> => driver.evaluate(() => matchMedia('(max-width: 640px)').matches);

/** The reading of the photo as it is now stands on the page, with its pictures. */
export async function readingShown(driver: Driver): Promise<void> {
  await driver.waitFor('the reading is shown', () => document.querySelector('#reading[aria-busy=false] .numbers tbody') !== null);
  await driver.waitFor('its pictures and curves are drawn', () => document.querySelector('.picture canvas') !== null && document.querySelector('.axis-curve .curve') !== null);
}

export async function openDemo(driver: Driver): Promise<void> {
  await driver.click({ button: 'Look at the demo' });
  await driver.waitFor('the demo is open', () => document.querySelector('#reading') !== null);
  if (await narrow(driver)) await show(driver, 'Reading');
  await readingShown(driver);
}

/** Opens everything that is one tap away in what is shown. */
export async function openDepths(driver: Driver): Promise<void> {
  const closed = 'main h2 > button[aria-expanded=false]';
  while (await driver.evaluate(locate, { css: closed })) await driver.click(closed);
}

/** One of the quiet row of words. */
export async function show(driver: Driver, mode: string): Promise<void> {
  await driver.click({ button: mode });
}

/** The plan stands. The demo's stains are kept from one visit to the next; the first visit of an engine chooses them. */
export async function planned(driver: Driver): Promise<void> {
  await driver.waitFor('a plan, or a way to one', () => document.querySelector('.plan-sheet, [data-why=no-swatches]') !== null);
  if (await driver.evaluate(() => document.querySelector('[data-why=no-swatches]') !== null)) await driver.click({ button: 'Use demo stains' });
  await driver.waitFor('the plan is shown', () => document.querySelector('.plan-sheet .coats-bar') !== null);
}

export async function planShown(driver: Driver): Promise<void> {
  await show(driver, 'Plan');
  await planned(driver);
  await driver.waitFor('the plan’s picture is drawn', () => document.querySelector('.plan-sheet .divider') !== null && document.querySelector('.predicted canvas') !== null);
}

/** Brush work per third: what is read, in order. */
export const coats = (driver: Driver): Promise<string[]> =>
  driver.evaluate(() => [...document.querySelectorAll<HTMLElement>('.coats-bar')].map((e) => `${e.dataset['coats']}: ${(e.textContent ?? '').replace(/\s+/g, ' ').trim()}`));

/** The patient's screen as it is turned round: the two pictures are drawn, and the sentence is said. */
export async function patientShown(driver: Driver): Promise<string> {
  await driver.click({ button: 'More' });
  await driver.click({ button: 'Show the patient' });
  await driver.waitFor('two pictures are drawn', () => {
    const all = [...document.querySelectorAll<HTMLCanvasElement>('.patient-pair canvas')];
    return all.length >= 2 && all.every((c) => c.getContext('2d')!.getImageData(c.width >> 1, c.height >> 1, 1, 1).data[3]! > 0);
  });
  await driver.click({ button: 'Hand it over' });
  await driver.waitFor('it is handed over', () => document.querySelector('.patient-setup') === null);
  return driver.text('.patient-sentence');
}

export async function patientBack(driver: Driver): Promise<void> {
  await driver.click('.patient-back');
  await driver.click({ button: 'Yes' });
  await driver.waitFor('the patient’s screen is gone', () => document.querySelector('.patient') === null);
}

/** Colours typed for the restoration and for its target, without a photo. */
export async function typeColours(driver: Driver, colours: Record<string, readonly string[]>): Promise<void> {
  for (const [what, lab] of Object.entries(colours)) {
    for (const [i, axis] of ['L*', 'a*', 'b*'].entries()) await driver.type(`input[aria-label="${what}, ${axis}"]`, lab[i]!);
  }
}
