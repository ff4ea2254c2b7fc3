import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Found, Scene } from '../src/engine/types';
import { middleOf } from '../src/state/shapes';
import { closeBrowser, openBrowser, visit } from './browser';
import { openDepths, fixture, found, menu, numbers, onScreen, openPhoto, settled } from './desk';
import { bar, keysOf, lyingOn, opened, undo } from './found_case';
import { truthOf } from './truths';

beforeAll(openBrowser);
afterAll(closeBrowser);

it.each([
  ['the demo photo', 'demo/demo', 3600],
  ['a photo it was never shown', 'scenes/other', 3000],
])('outlines %s without a touch and reads it in two taps', async (_, path, width) => {
  const { page, errors, close } = await visit();
  await openPhoto(page, fixture(`${path}.jpg`));
  await found(page);
  const { regions, card } = truthOf(`${path}.truth.json`).scene;
  const note = await page.locator('.guide-note').innerText();
  expect(note).toContain(`Card, ${regions.filter((r) => r.kind === 'tab').length} tabs and `);
  expect((await lyingOn(page, card!.outline, width)).key).toBe('card');
  for (const { id, outline } of regions) expect([id, (await lyingOn(page, outline, width)).share > 0.85]).toEqual([id, true]);
  await settled(page);
  expect(Object.keys(await numbers(page)).length).toBe((await keysOf(page)).length - 1);

  // Nothing was decided for the user: no name, no restoration.
  await openDepths(page);
  const kinds = await page.locator('.numbers th[scope=rowgroup]').allInnerTexts();
  expect(kinds.filter((k) => !/^(Tooth [a-z]+|Tab \d+)/.test(k))).toEqual([]);
  const crown = regions.find((r) => r.kind === 'restoration')!;
  await page.mouse.click(...(await onScreen(page, middleOf(crown.outline), width)));
  await bar(page).getByRole('button', { name: 'Restoration' }).click();
  await settled(page);
  await page.locator('.third .difference[data-delta-e]').first().waitFor();
  await page.locator('.depth.how').waitFor();
  // One step back each.
  await undo(page);
  await page.locator('.depth.how').waitFor({ state: 'detached' });
  await undo(page);
  await expect.poll(() => keysOf(page)).toEqual([]);
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect.poll(async () => (await keysOf(page)).length).toBeGreaterThan(regions.length);
  expect(errors).toEqual([]);
  await close();
});

it('finds what the command line finds: its own tests keep that file true', async () => {
  const { page, errors, close } = await visit();
  await openPhoto(page, fixture('demo/demo.jpg'));
  await found(page);
  const [download] = await Promise.all([page.waitForEvent('download'), menu(page, 'Save scene')]);
  const scene = JSON.parse(readFileSync((await download.path())!, 'utf8')) as Scene;
  const kept = JSON.parse(readFileSync(fixture('demo/demo.found.json'), 'utf8')) as Found;
  expect(scene.regions.map((r) => r.kind)).toEqual(kept.regions.map((r) => r.kind));
  const ends = ({ cervical, incisal }: { cervical?: readonly number[]; incisal?: readonly number[] }) => [...cervical!, ...incisal!];
  const off = scene.regions.flatMap((r, i) => ends(r).map((v, k) => Math.abs(v - ends(kept.regions[i]!)[k]!)));
  // A tenth is the file's rounding; the browser's decoder differs by a code here and there.
  expect(Math.max(...off)).toBeLessThan(0.6);
  expect(errors).toEqual([]);
  await close();
});

it('names the tabs one after the other, by the user’s word only', async () => {
  const { page, errors, close } = await visit();
  await opened(page, 'tab');
  const none = page.getByRole('button', { name: 'There is none' });
  if (await none.isVisible()) await none.click();
  await page.getByRole('button', { name: 'Tab 1', exact: true }).first().click();
  const names = page.locator('.asking');
  const placed = page.locator('.tab-place');
  await names.getByRole('button', { name: 'A1', exact: true }).click();
  await page.getByRole('group', { name: 'Name of Tab 2' }).waitFor();
  await names.getByRole('button', { name: 'A2', exact: true }).click();
  expect((await placed.allInnerTexts()).slice(0, 5)).toEqual(['Tab A1', 'Tab A2', 'Tab 3', 'Tab 4', 'Tab 5']);
  await settled(page);
  await openDepths(page);
  await expect.poll(() => page.locator('.rungs li[aria-current]').innerText()).toContain('Card and tabs');
  await undo(page);
  await expect.poll(async () => (await placed.allInnerTexts())[1]).toBe('Tab 2');
  await page.getByRole('button', { name: 'Later' }).click();
  await placed.first().waitFor({ state: 'detached' });
  expect(errors).toEqual([]);
  await close();
});

it('searches again for what was taken away, and leaves the rest as it is', async () => {
  const { page, errors, close } = await visit();
  const { at, key, path } = await opened(page, 'tooth');
  await page.locator('.outline[data-shape="card"]').waitFor();
  const before = (await keysOf(page)).length;
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button', { name: 'Tab 1', exact: true }).click();
  await bar(page).getByRole('button', { name: 'Delete' }).click();
  await page.mouse.click(...at);
  await page.locator('.handle.move').focus();
  await page.keyboard.press('ArrowDown');
  const moved = await path();
  await menu(page, 'Find card, tabs and teeth again');
  await expect.poll(async () => (await keysOf(page)).length).toBe(before);
  await page.locator('.guide-note', { hasText: '1 tab found.' }).waitFor();
  expect(await path()).toBe(moved);
  await undo(page);
  await expect.poll(async () => (await keysOf(page)).length).toBe(before - 1);
  expect(await keysOf(page)).toContain(key);
  expect(errors).toEqual([]);
  await close();
});
