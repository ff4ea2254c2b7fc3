/** What the page says when stains, plans and attempts are of no use, a part of it does not come, or a case file is too large. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { drop, menu, openDemo, pick } from './desk';
import { endAt, watchWorkers } from './faults_worker';
import { openSmall, small } from './faults_small';
import { json, mode, press } from './plan_case';
import { said } from './refusals_rest_parts';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('says that a book of which nothing can be used gives no strengths, and a usable swatch does', async () => {
  const { page, errors, close } = await visit();
  await press(page, 'My swatches');
  // The page takes it in: only the engine knows what a ceramic looks like.
  const book = (base: number[]) => json('x.swatches.json', { swatches: [{ stain: 'umber', coats: 1, base, after: [76, 2, 18] }] });
  const open = (file: ReturnType<typeof json>) => pick(page, () => press(page, 'Open a swatch file'), file);
  await open(book([5, 0, 0]));
  const reason = page.locator('.reason', { hasText: 'The strengths of the stains could not be worked out.' });
  await reason.waitFor();
  expect(await reason.innerText()).toContain('None of the swatches can be used.');
  await open(book([78, 1, 16]));
  await reason.waitFor({ state: 'detached' });
  await page.locator('.stain[data-stain=umber] .strength').waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('says that no plan could be made, and makes it when it is looked at again', async () => {
  const { page, errors, close } = await visit();
  await watchWorkers(page);
  await openDemo(page);
  await mode(page, 'Plan');
  await endAt(page, 'plan', 1);
  await press(page, 'Use demo stains');
  const reason = page.locator('.reason', { hasText: 'No plan could be made.' });
  await reason.waitFor();
  expect(await reason.innerText()).toContain('The browser ended the program');
  expect(await page.locator('.plan-sheet').count()).toBe(0);
  await mode(page, 'Swatches');
  await mode(page, 'Plan');
  await page.locator('.plan-sheet').waitFor();
  expect(await reason.count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

const [FROM, TO] = [[78, 0, 14], [73, 1.5, 19]];
const ATTEMPT = {
  who: 'Kim', at: '2026-01-05T08:00:00.000Z', base: 'Tab A1', target: 'Tab A3', request: { zones: [{ zone: 'middle', base: FROM, got: TO, target: TO, doubt: 1 }] },
  score: { colour: 1, way: 0, words: '', zones: [{ zone: 'middle', start_delta_e_00: 5, left_delta_e_00: 1, verdict: 'accepted', words: '' }] },
};

it('says which part of a file of attempts is wrong, and adds none of it', async () => {
  const { page, errors, close } = await visit();
  await press(page, 'Practice');
  const add = (name: string, content: unknown) => pick(page, () => press(page, 'Add attempts from a file'), json(name, content));
  for (const [name, content] of Object.entries({ 'empty.json': {}, 'undated.json': { attempts: [{ ...ATTEMPT, at: 'some day' }] }, 'unscored.json': { attempts: [ATTEMPT, { ...ATTEMPT, score: 1 }] } })) {
    await add(name, content);
    expect(await said(page, `${name} holds no attempts that can be used. Nothing was changed.`)).toContain('The part “attempts” is missing or not as it should be.');
  }
  expect(await page.locator('.learner circle').count()).toBe(0);
  await add('whole.json', { attempts: [ATTEMPT] });
  await page.getByRole('status').filter({ hasText: '1 attempt added.' }).waitFor();
  expect(errors).toEqual([]);
  await close();
});

const PART = 'A part of the page could not be loaded. Load the page again while its server can be reached.';

it.each([404, 'cut off'] as const)('says that a part of the page did not come (%s), in its own words alone, and stays of use', async (how) => {
  const { page, errors, close } = await visit();
  const [parts, german] = [/\/parts-[^/]*\.js$/, /\/de-[^/]*\.js$/];
  for (const lost of [parts, german]) await page.route(lost, (route) => (how === 404 ? route.fulfill({ status: 404, body: 'not found' }) : route.abort('connectionreset')));
  await page.reload();
  const again = async () => {
    expect(await said(page, PART)).toBe(`${PART} ×`);
    await page.getByRole('alert').getByRole('button').click();
  };
  await again();
  for (const name of ['x.tabside', 'x.csv']) {
    await drop(page, { name, mimeType: '', buffer: Buffer.from('x') });
    await again();
  }
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.locator('#reading[aria-busy=false]').waitFor({ state: 'attached' });
  await menu(page, 'Copy the numbers');
  await again();
  await drop(page, ...(await small(page, 'a.jpg', 'b.jpg')));
  await again();
  await page.unroute(parts);
  await mode(page, 'Reading');
  await openSmall(page, 'c.jpg');
  await menu(page, 'Settings');
  await page.getByLabel('Deutsch').check();
  await page.keyboard.press('Escape');
  await again();
  await page.unroute(german);
  await menu(page, 'Settings');
  await page.getByLabel('Deutsch').check();
  await expect.poll(() => page.evaluate(() => document.documentElement.lang)).toBe('de');
  expect(errors.filter((error) => !error.includes('Failed to load resource'))).toEqual([]);
  await close();
});

it('refuses a case file of more than 1 GiB before it is read, with what can be done about a case', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await page.evaluate(() => {
    const part = new Uint8Array(4 << 20);
    const data = new DataTransfer();
    data.items.add(new File(['PK\x03\x04', ...Array.from({ length: 256 }, () => part)], 'vast.tabside'));
    window.dispatchEvent(new DragEvent('drop', { dataTransfer: data }));
  });
  const words = await said(page, 'vast.tabside could not be opened as a case.');
  expect(words).toContain('The case file is larger than 400 MB. Ask the sender to leave photos out, or to make two cases of it. What was open is still here.');
  expect(await page.locator('.file-name').innerText()).toBe('demo photo: rendered, nobody’s teeth');
  expect(errors).toEqual([]);
  await close();
});
