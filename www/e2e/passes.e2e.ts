/**
 * From a plan to the look before firing, the fired result, and the next pass. No photo of a painted
 * crown exists here: the demo photo with one tab as its restoration stands in for the painted one,
 * with another tab for the fired one, and the other scene for a photo of another patient.
 */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { openDemo, pick } from './desk';
import { stored } from './keeping_case';
import { beginWork, complaints, leftOf, openCase, sceneOf, sceneWith, showMode, SIZES } from './passes_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const DEMO = sceneOf('demo/demo');
const OTHER = sceneOf('scenes/other');
const PAINTED = sceneWith(DEMO, 'tab-C1');
const FIRED = sceneWith(DEMO, 'tab-A2');

const LOOK = 'This photo shows it painted, not fired';
const RESULT = 'This photo shows the fired result';
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

async function lookBefore(page: Page): Promise<void> {
  await openCase(page, 'demo/demo', PAINTED, 'painted.jpg');
  if (!(await page.locator('.unfired').isVisible())) await showMode(page, 'Plan');
  await button(page, LOOK).click();
  await page.locator('.hand').waitFor();
}

async function record(page: Page): Promise<void> {
  await openCase(page, 'demo/demo', FIRED, 'fired.jpg');
  if (!(await page.locator('.passes').isVisible())) await showMode(page, 'Plan');
  await button(page, RESULT).click();
  await page.locator('.go').waitFor();
}

const swatchNotes = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const { lent, own } = JSON.parse(localStorage.getItem('tabside.stains.1')!) as Record<string, { swatches: { note?: string; unfired?: number[] }[] } | null>;
    return (lent ?? own)!.swatches.filter((s) => s.note?.includes('pass')).map((s) => `${s.note}${s.unfired ? ', unfired' : ''}`);
  });

it('looks before firing, takes the fired result, says go on or stop, learns, and plans the next pass', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await beginWork(page);
  // The photo of the plan is not its result.
  expect(await page.getByText('The open photo is the one that the plan started from.').count()).toBe(2);
  expect(await button(page, RESULT).count()).toBe(0);

  await lookBefore(page);
  const hands = page.locator('.hand > div');
  expect(await hands.count()).toBe(3);
  for (const text of await hands.locator('dt strong').allInnerTexts()) expect(text).toMatch(/Leave it|Thin it|Add|Spread it|Cannot tell/);
  expect(await page.locator('.unfired .directions').count()).toBe(1);
  // Said first, and as large as the advice.
  const sizeOf = (what: string) => page.locator(what).first().evaluate((e) => getComputedStyle(e).fontSize);
  expect(await page.locator('.unfired .directions').innerText()).toMatch(/^Directions only: 0 /);
  expect(await sizeOf('.unfired .directions')).toBe(await sizeOf('.hand dt strong'));
  await page.getByText('The open photo is the one from before firing.').waitFor();

  await record(page);
  expect(await page.locator('.go').innerText()).toMatch(/^(Stop here|Another pass would help): /);
  await expect.poll(() => page.locator('.pass-lane').count()).toBe(3);
  expect(await swatchNotes(page)).toEqual(expect.arrayContaining([expect.stringMatching(/^pass 1, \w+, unfired$/)]));
  const left = await leftOf(page);
  // What is left is what the reading of that photo says by itself.
  await showMode(page, 'Reading');
  const said = await page.locator('.difference').evaluateAll((cells) => cells.map((c) => Number((c as HTMLElement).dataset['deltaE'])));
  expect(left).toHaveLength(3);
  left.forEach((delta, i) => expect(delta).toBeCloseTo(said[i]!, 3));

  await showMode(page, 'Plan');
  await page.locator('.work-head', { hasText: 'Pass 1, fired.' }).waitFor();
  expect(await button(page, 'Plan again').count()).toBe(0);
  await page.getByText('are carried over into the light of this photo by way of the target').waitFor();
  await button(page, 'Plan the next pass').click();
  await page.locator('.work-head', { hasText: 'Pass 2.' }).waitFor();
  await page.locator('.passes').getByText('The open photo is the one that the plan started from.').waitFor();
  expect(await page.locator('.kept-pass').count()).toBe(1);
  expect(errors).toEqual([]);
  await close();
});

it('learns nothing from a photo whose target reads differently, marks the pass, and warns in the look too', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await beginWork(page);
  await openCase(page, 'scenes/other', OTHER);
  const warning = page.getByText(/The target reads very differently from when the plan was made \(ΔE\*ab \d+\.\d\)/);
  await expect.poll(() => warning.count()).toBe(2);
  await page.getByText(/^Takes Restoration \d+ as the painted restoration and Tooth \d+ as the target\.$/).waitFor();
  await page.getByText(/^Takes Restoration \d+ as the fired restoration and Tooth \d+ as the target\.$/).waitFor();
  await button(page, LOOK).click();
  await page.locator('.unfired .directions').waitFor();
  expect(await page.locator('.unfired .care').count()).toBe(1);
  await page.keyboard.press('Control+z');
  await button(page, RESULT).click();
  await page.locator('.passes .strange').waitFor();
  await page.locator('.kept-pass summary', { hasText: /target read differently \(ΔE\*ab \d+\.\d\)/ }).waitFor();
  const learn = page.getByRole('switch', { name: 'The strengths learn from this pass' });
  expect([await learn.getAttribute('aria-checked'), await swatchNotes(page)]).toEqual(['false', []]);
  await learn.click();
  await expect.poll(async () => (await swatchNotes(page)).length).toBeGreaterThan(0);
  expect(errors).toEqual([]);
  await close();
});

it('says on the start that a work waits, saves it as a file, and opens it from one', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  await beginWork(page);
  await page.getByLabel('Label').fill('W-17');
  await page.locator('.plan-step input').first().check();
  const [download] = await Promise.all([page.waitForEvent('download'), button(page, 'Save this work as a file').click()]);
  expect(download.suggestedFilename()).toBe('W-17.work.json');
  const buffer = readFileSync((await download.path())!);
  // Without its photo; with it the photo would be looked at.
  await showMode(page, 'Tray');
  await page.getByRole('button', { name: /^Take off/ }).click();
  await page.locator('.tray-row').waitFor({ state: 'detached' });
  await page.reload();
  await page.getByText(/^Work “W-17” waits \(pass 1, 1 of \d+ steps\)\.$/).waitFor();
  expect(await complaints(page)).toEqual([]);
  await button(page, 'Go on').click();
  await page.locator('.work-head', { hasText: 'W-17' }).waitFor();

  await button(page, 'Close this work').click();
  await page.locator('.work-head').waitFor({ state: 'detached' });
  const open = (name: string, body: Buffer) => pick(page, () => button(page, 'Open a work from a file').click(), { name, mimeType: 'application/json', buffer: body });
  await open('no.json', Buffer.from('{"regions":[]}'));
  await page.getByRole('alert').filter({ hasText: 'no.json is not a work that can be opened. Nothing was changed.' }).waitFor();
  await open('W-17.work.json', buffer);
  await page.locator('.work-head', { hasText: 'W-17' }).waitFor();
  expect(await page.locator('.plan-step input').first().isChecked()).toBe(true);
  await page.keyboard.press('Control+z');
  await page.locator('.work-head').waitFor({ state: 'detached' });
  expect(errors).toEqual([]);
  await close();
});

it('undoes a pass with its swatches, leaves it out of the strengths, and keeps all of it over a reload', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await beginWork(page);
  await record(page);
  const notes = await swatchNotes(page);
  expect(notes.length).toBeGreaterThan(0);
  await page.keyboard.press('Control+z');
  await page.locator('.go').waitFor({ state: 'detached' });
  await expect.poll(() => swatchNotes(page)).toEqual([]);
  await page.keyboard.press('Control+y');
  await page.locator('.go').waitFor();

  const learn = page.getByRole('switch', { name: 'The strengths learn from this pass' });
  await learn.click();
  await expect.poll(() => swatchNotes(page)).toEqual([]);
  expect(await learn.getAttribute('aria-checked')).toBe('false');
  await learn.click();
  await expect.poll(() => swatchNotes(page)).toEqual(notes);

  const why = await page.locator('.go').innerText();
  await page.waitForTimeout(1200);
  await page.reload();
  await page.locator('.file-name', { hasText: 'fired.jpg' }).waitFor();
  await showMode(page, 'Plan');
  expect(await page.locator('.go').innerText()).toBe(why);
  expect(await learn.getAttribute('aria-checked')).toBe('true');
  await button(page, 'Take this pass back').click();
  await expect.poll(() => swatchNotes(page)).toEqual([]);
  expect(await page.locator('.kept-pass').count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

it('counts the coats that were painted, by keyboard', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await beginWork(page);
  await openCase(page, 'demo/demo', FIRED);
  await page.locator('.coats summary').focus();
  await page.keyboard.press('Enter');
  const more = page.locator('.coats-fields').getByRole('button', { name: /: more$/ }).first();
  const field = page.locator('.coats-fields input').first();
  const planned = Number(await field.inputValue());
  await more.focus();
  await page.keyboard.press('Enter');
  expect(Number(await field.inputValue())).toBe(planned + 0.25);
  await button(page, RESULT).focus();
  await page.keyboard.press('Enter');
  await page.locator('.go').waitFor();
  const coats = async () => (await stored(page, 'docs'))[0]?.doc.stains.work?.passes[0]?.swatches[0].coats as number | undefined;
  await expect.poll(coats).toBe(planned + 0.25);
  expect(errors).toEqual([]);
  await close();
});

it.each(Object.entries(SIZES))('axe finds nothing to object to in look and pass (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  await openDemo(page);
  await beginWork(page);
  await page.locator('.coats summary').click();
  expect(await complaints(page)).toEqual([]);
  await lookBefore(page);
  expect(await complaints(page)).toEqual([]);
  await record(page);
  expect(await complaints(page)).toEqual([]);
  await close();
});
