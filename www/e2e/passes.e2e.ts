/**
 * From a plan to the look before firing, the fired result, and the next pass. No photo of a painted
 * crown exists here: the other scene stands in for the painted one, and the demo photo with a tab as
 * its restoration for the fired one.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { openDemo } from './desk';
import { beginWork, complaints, openCase, sceneOf, sceneWith, showMode, SIZES } from './passes_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const DEMO = sceneOf('demo/demo');
const OTHER = sceneOf('scenes/other');
const FIRED = sceneWith(DEMO, 'tab-A2');

const LOOK = 'This photo shows it painted, not fired';
const RESULT = 'This photo shows the fired result';
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

async function lookBefore(page: Page): Promise<void> {
  await openCase(page, 'scenes/other', OTHER);
  if (!(await page.locator('.unfired').isVisible())) await showMode(page, 'Plan');
  await button(page, LOOK).click();
  await page.locator('.hand').waitFor();
}

async function record(page: Page): Promise<void> {
  await openCase(page, 'demo/demo', FIRED);
  if (!(await page.locator('.passes').isVisible())) await showMode(page, 'Plan');
  await button(page, RESULT).click();
  await page.locator('.go').waitFor();
}

const swatchNotes = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const { demo, own } = JSON.parse(localStorage.getItem('tabside.stains.1')!) as Record<string, { swatches: { note?: string; unfired?: number[] }[] } | null>;
    return (demo ?? own)!.swatches.filter((s) => s.note?.includes('pass')).map((s) => `${s.note}${s.unfired ? ', unfired' : ''}`);
  });

it('looks before firing, takes the fired result, says go on or stop, learns, and plans the next pass', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await beginWork(page);
  // The photo of the plan is not its result.
  expect(await page.getByText('The open photo shows what the plan starts from.').count()).toBe(2);
  expect(await button(page, RESULT).count()).toBe(0);

  await lookBefore(page);
  const hands = page.locator('.hand > div');
  expect(await hands.count()).toBe(3);
  for (const text of await hands.locator('dt strong').allInnerTexts()) expect(text).toMatch(/Leave it|Thin it|Add|Spread it|Cannot tell/);
  expect(await page.locator('.unfired .directions').count()).toBe(1);
  await page.getByText('The open photo is the one from before firing.').waitFor();

  await record(page);
  expect(await page.locator('.go').innerText()).toMatch(/^(Stop here|Another pass would help): /);
  await expect.poll(() => page.locator('.pass-lane').count()).toBe(3);
  expect(await swatchNotes(page)).toEqual(expect.arrayContaining([expect.stringMatching(/^pass 1, \w+, unfired$/)]));
  const left = await page.locator('.pass-table [data-left]').evaluateAll((cells) => cells.map((c) => Number((c as HTMLElement).dataset['left'])));
  // What is left is what the reading of that photo says by itself.
  await showMode(page, 'Reading');
  const said = await page.locator('.difference').evaluateAll((cells) => cells.map((c) => Number((c as HTMLElement).dataset['deltaE'])));
  expect(left).toHaveLength(3);
  left.forEach((delta, i) => expect(delta).toBeCloseTo(said[i]!, 3));

  await showMode(page, 'Plan');
  await button(page, 'Plan the next pass').click();
  await page.locator('.passes').getByText('The open photo shows what the plan starts from.').waitFor();
  expect(await page.locator('.kept-pass').count()).toBe(1);
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
  await page.reload();
  await button(page, 'Plan by typed colours').click();
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
  const coats = await page.evaluate(() => {
    const { work } = JSON.parse(localStorage.getItem('tabside.stains.1')!) as { work: { passes: { swatches: { coats: number }[] }[] } };
    return work.passes[0]!.swatches[0]!.coats;
  });
  expect(coats).toBe(planned + 0.25);
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
