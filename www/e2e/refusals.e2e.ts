/** Every refusal and every check in the page: the inputs, and the words, are those of `tests/refusals`. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { drop, menu, numbers, openDemo, openDepths, pick, settled } from './desk';
import { called } from './refusals_call';
import { made, plain, type Made } from './refusals_made';

/** The inputs may have to be compiled and made first. */
const SLOW_MS = 600_000;
let all: Made;
beforeAll(async () => {
  all = made();
  await openBrowser();
}, SLOW_MS);
afterAll(closeBrowser);

/** What is not said in time, with what is said instead. */
async function unsaid(page: Page, where: string, says: readonly string[], unfold = async () => {}): Promise<string[]> {
  const text = () => page.evaluate((where) => [...document.querySelectorAll(where)].map((e) => e.textContent).join(' '), where);
  const missing = async () => {
    await unfold();
    const said = plain(await text());
    return says.filter((t) => !said.includes(plain(t)));
  };
  for (let left = 100; left > 0 && (await missing()).length > 0; left--) await page.waitForTimeout(50);
  const found = await missing();
  return found.length ? [...found, `instead: ${plain(await text()).slice(0, 400)}`] : [];
}

const undo = (page: Page) => page.getByRole('button', { name: 'Undo', exact: true }).click();

it('refuses every bad file in words, and keeps what is open', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const before = await numbers(page);
  const bad = all.of('drop').filter((c) => c.refused);
  expect(bad.length).toBeGreaterThan(100);
  const wrong: unknown[] = [];
  for (const { id, file, says } of bad) {
    await drop(page, all.given(id, file));
    const missing = await unsaid(page, '[role=alert], .reason', [says]);
    if (missing.length) wrong.push([id, missing]);
    // What the page let in and the engine refused is one step back.
    if (await page.locator('.reason').count()) {
      if (!(await page.locator('.reason').innerText()).includes('This scene cannot be read.')) wrong.push([id, 'another title']);
      await undo(page);
      await page.locator('.reason').waitFor({ state: 'detached' });
    }
    const message = page.getByRole('button', { name: 'Close this message' });
    if (await message.count()) await message.click();
  }
  expect(wrong).toEqual([]);
  await settled(page);
  expect(await numbers(page)).toEqual(before);
  expect(errors).toEqual([]);
  await close();
}, SLOW_MS);

it('asks for the passphrase of a locked case, and says what is wrong with it or with the file', async () => {
  const { page, errors, close } = await visit();
  const wrong: unknown[] = [];
  for (const { id, file, typed, says } of all.of('unlock')) {
    await drop(page, all.given(id, file));
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Passphrase', { exact: true }).fill(typed);
    await dialog.getByRole('button', { name: 'Open', exact: true }).click();
    const missing = await unsaid(page, '[role=dialog] [role=alert], dialog [role=alert]', [says]);
    if (missing.length) wrong.push([id, missing]);
    await dialog.getByRole('button', { name: 'Close' }).click();
  }
  expect(wrong).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

it('tells every light check beside the reading', async () => {
  const { page, errors, close } = await visit();
  const wrong: unknown[] = [];
  for (const { id, files, says } of all.of('read')) {
    const photo = files.find((f) => f === 'photo.jpg')!;
    await drop(page, all.given(id, photo, id));
    await page.locator('.file-name', { hasText: id }).waitFor();
    for (const file of files.filter((f) => f.endsWith('.json'))) await drop(page, all.given(id, file));
    if (files.includes('polarised.jpg')) await pick(page, () => menu(page, 'Add the cross-polarised photo'), all.given(id, 'polarised.jpg', `${id}2`));
    const missing = await unsaid(page, '.checks, .waiting, .reason, [role=alert]', says);
    if (missing.length) wrong.push([id, missing]);
    if (files.some((f) => f.endsWith('.guide.json'))) await undo(page);
  }
  expect(wrong).toEqual([]);
  expect(errors).toEqual([]);
  await close();
}, SLOW_MS);

it('says of an opened case what is to be said, and why numbers are others', async () => {
  const { page, errors, close } = await visit();
  const wrong: unknown[] = [];
  for (const { id, file, says } of all.of('drop').filter((c) => !c.refused)) {
    await drop(page, all.given(id, file));
    await page.locator('.opened-file, [role=alert]').first().waitFor({ timeout: 8000 }).catch(() => {});
    const missing = await unsaid(page, '.opened-file, [role=alert]', [says], () => openDepths(page));
    if (missing.length) wrong.push([id, missing]);
    for (const name of ['Close', 'Close this message']) for (const button of await page.getByRole('button', { name, exact: true }).all()) await button.click({ timeout: 2000 }).catch(() => {});
  }
  expect(wrong).toEqual([]);
  expect(errors).toEqual([]);
  await close();
}, SLOW_MS);

it('has the same words from its engine where no view lets such things through', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  await menu(page, 'Save the case as a file');
  const wrong: unknown[] = [];
  for (const bad of all.of('call')) {
    const said = await called(page, all, bad);
    // What the browser says of a wrong value in between is its own.
    if (!bad.says.split('…').every((part) => plain(said.replace(/\\"/g, '"')).includes(plain(part)))) wrong.push([bad.id, bad.says, `instead: ${said.slice(0, 400)}`]);
  }
  expect(wrong).toEqual([]);
  await close();
}, SLOW_MS);
