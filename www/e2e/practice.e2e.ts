/** An exercise from plan to score through real photos; the other scene stands in for the photo of the result. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { openDemo, pick } from './desk';
import { complaints, openCase, sceneOf, showMode, SIZES, useDemoStains } from './passes_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const OTHER = sceneOf('scenes/other');
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

async function plan(page: Page, base = 'Tab A1', target = 'Tab A3'): Promise<void> {
  await page.getByLabel('Paint this one').selectOption({ label: base });
  await page.getByLabel('To look like this one').first().selectOption({ label: target });
  await page.getByRole('button', { name: /^Plan (this exercise|it again)$/ }).click();
  await page.locator('.result').waitFor();
}

async function score(page: Page, got: string, target: string): Promise<void> {
  await page.locator('.result').getByLabel('The painted one').first().selectOption({ label: got });
  await page.locator('.result').getByLabel('To look like this one').first().selectOption({ label: target });
  await button(page, 'Score this result').click();
}

it('plans one tab into another, scores the photo of the result, and draws the learning curve', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  await useDemoStains(page);
  await showMode(page, 'Practice');
  await page.getByLabel('Who paints').fill('Kim');
  await plan(page);
  expect(await page.locator('.practice-steps li').count()).toBeGreaterThan(2);
  // Said with every plan.
  await page.locator('.result .demo-line').waitFor();
  expect(await page.locator('.result .cautions li').count()).toBeGreaterThan(1);
  // Nothing in the photo of the base is its result.
  for (const label of ['Tab A1', 'Tab C1']) {
    await page.locator('.result').getByLabel('The painted one').selectOption({ label });
    await page.getByText('This is the photo in which the tab was read before it was painted').waitFor();
    expect(await button(page, 'Score this result').isDisabled()).toBe(true);
  }

  await openCase(page, 'scenes/other', OTHER);
  await expect.poll(() => page.getByLabel('The painted one').first().locator('option').allInnerTexts()).toContain('Tab B3');
  await score(page, 'Tab B3', 'Tab A3');
  await page.locator('.score').waitFor();
  expect((await page.locator('.say-first').innerText()).length).toBeGreaterThan(10);
  expect(await page.locator('.score-table tbody tr').count()).toBe(3);
  await page.getByLabel('Who paints').fill('Team 2');
  await score(page, 'Tab A3.5', 'Tab A3');
  await expect.poll(() => page.locator('.learner circle').count()).toBe(2);
  expect((await page.locator('.learning-curve .name').allTextContents()).sort()).toEqual(['Kim', 'Team 2']);

  // Deleted, undone, kept over a reload.
  await page.locator('.attempts summary').click();
  await button(page, 'Delete attempt 2, Team 2').click();
  await expect.poll(() => page.locator('.attempt-list li').count()).toBe(1);
  await page.keyboard.press('Control+z');
  await expect.poll(() => page.locator('.attempt-list li').count()).toBe(2);
  const [download] = await Promise.all([page.waitForEvent('download'), button(page, 'Save the attempts as a file').click()]);
  const text = readFileSync((await download.path())!, 'utf8');
  expect(JSON.parse(text).attempts.map((a: { who: string }) => a.who)).toEqual(['Kim', 'Team 2']);
  await page.reload();
  await button(page, 'Practice').click();
  await expect.poll(() => page.locator('.learner circle').count()).toBe(2);
  expect(await page.locator('.result h2').first().innerText()).toBe('Tab A1 → Tab A3');
  await page.locator('.score').waitFor();

  // From another device: only what is not here yet is added.
  const more = JSON.parse(text) as { attempts: { who: string; at: string }[] };
  more.attempts.push({ ...more.attempts[0]!, who: 'Ana', at: '2026-01-05T08:00:00.000Z' });
  const add = (body: unknown) => pick(page, () => button(page, 'Add attempts from a file').click(), { name: 'more.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(body)) });
  await add(more);
  await page.getByRole('status').filter({ hasText: '1 attempt added.' }).waitFor();
  expect(await page.locator('.learner circle').count()).toBe(3);
  await add({ attempts: [{}] });
  await page.getByRole('alert').filter({ hasText: 'more.json holds no attempts that can be used' }).waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('goes without stains and without a photo, by typed values', async () => {
  const { page, errors, close } = await visit();
  await button(page, 'Practice').click();
  expect(await button(page, 'Plan this exercise').isDisabled()).toBe(true);
  for (const [side, values] of [['Paint this one', ['78', '0', '14']], ['To look like this one', ['73', '1.5', '19']]] as const) {
    for (const [i, axis] of ['L*', 'a*', 'b*'].entries()) await page.getByLabel(`${side}, middle, ${axis}`, { exact: true }).fill(values[i]!);
  }
  await button(page, 'Plan this exercise').click();
  await page.getByText('There is no plan: no stain was known.').waitFor();
  await button(page, 'Use demo stains').click();
  await page.getByText('No stain is known yet').waitFor({ state: 'detached' });
  await button(page, 'Plan it again').click();
  await page.locator('.result .demo-line').waitFor();
  // The result can be typed too; the next exercise starts without its score.
  for (const [i, value] of ['74', '1', '18'].entries()) await page.getByLabel(`The painted one, middle, ${['L*', 'a*', 'b*'][i]}`, { exact: true }).fill(value);
  await button(page, 'Score this result').click();
  await page.locator('.score').waitFor();
  await button(page, 'Plan it again').click();
  await page.locator('.score').waitFor({ state: 'detached' });
  expect(await page.locator('.learner circle').count()).toBe(1);
  expect(errors).toEqual([]);
  await close();
});

it.each(Object.entries(SIZES))('axe finds nothing to object to in practice (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  await button(page, 'Practice').click();
  await page.locator('#practice').waitFor();
  expect(await complaints(page)).toEqual([]);
  await page.reload();
  await openDemo(page);
  await useDemoStains(page);
  await showMode(page, 'Practice');
  await plan(page);
  expect(await complaints(page)).toEqual([]);
  await openCase(page, 'scenes/other', OTHER);
  if (!(await page.locator('.result').isVisible())) await showMode(page, 'Practice');
  await score(page, 'Tab B3', 'Tab A3');
  await page.locator('.score').waitFor();
  await page.locator('.attempts summary').click();
  expect(await complaints(page)).toEqual([]);
  // Names stay inside the curve, short and long ones.
  for (const who of ['MMMM', 'Second year, afternoon', 'Kim']) {
    await page.getByLabel('Who paints').fill(who);
    await score(page, 'Tab B3', 'Tab A3');
    await page.locator('.learning-curve .name', { hasText: who.slice(0, 3) }).waitFor();
  }
  const outside = await page.locator('.learning-curve').evaluate((svg) => {
    const { width } = svg.getBoundingClientRect();
    return [...svg.querySelectorAll<SVGTextElement>('.name')].map((name) => name.getBBox()).filter((box) => box.x < 0 || box.x + box.width > width).length;
  });
  expect(outside).toBe(0);
  await close();
});
