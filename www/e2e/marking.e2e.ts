import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { openDepths, numbers, onScreen, openPhoto, settled, unfound } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('goes from a photo to a reading by taps alone', async () => {
  const { page, errors, close } = await visit({ hasTouch: true });
  const demo = await demoCase();
  await openPhoto(page, demo.photo);
  await unfound(page);
  await page.getByRole('button', { name: '2 Card' }).click();
  await page.getByText('Tap the grey card in the photo.').waitFor();
  const tap = async (at: readonly [number, number]) => page.touchscreen.tap(...(await onScreen(page, at, demo.width)));
  const shapes = page.locator('.outline');

  await tap(demo.cardMiddle);
  await shapes.nth(0).waitFor();
  expect(await shapes.nth(0).getAttribute('data-shape')).toBe('card');

  const tabs = demo.scene.regions.filter((r) => r.kind === 'tab').slice(0, 3);
  for (const [i, tab] of tabs.entries()) {
    // The tool stays in hand; a name is suggested and can be changed before the tap.
    await page.locator('.next-name').click();
    await page.locator('.names-popover').getByLabel('Another name').fill(tab.name);
    await page.locator('.names-popover').getByRole('button', { name: 'Use' }).click();
    await tap(demo.inside(tab.id));
    await shapes.nth(i + 1).waitFor();
  }
  await page.getByRole('button', { name: 'All tabs marked' }).click();
  const tooth = demo.scene.regions.find((r) => r.kind === 'tooth')!;
  await tap(demo.inside(tooth.id));
  await shapes.nth(tabs.length + 1).waitFor();
  await page.getByRole('button', { name: 'Next: restoration' }).click();
  const crown = demo.scene.regions.find((r) => r.kind === 'restoration')!;
  await tap(demo.inside(crown.id));
  await shapes.nth(tabs.length + 2).waitFor();
  await page.getByRole('button', { name: 'Finished' }).click();
  await settled(page);

  const read = await numbers(page);
  expect(Object.keys(read)).toHaveLength(tabs.length + 2);
  for (const { middle } of Object.values(read)) expect(middle!.l).toBeGreaterThan(40);
  await openDepths(page);
  const names = await page.locator('.numbers th[scope=rowgroup]').allInnerTexts();
  expect(names.map((n) => n.split('\n')[0])).toEqual([...tabs.map((t) => `Tab ${t.name}`), 'Tooth', 'Restoration']);
  expect(errors).toEqual([]);
  await close();
});

it('finds the card in a dragged box, and says so when there is none', async () => {
  const { page, close } = await visit();
  const demo = await demoCase();
  await openPhoto(page, demo.photo);
  await unfound(page);
  await page.getByRole('button', { name: '2 Card' }).click();
  await page.getByText('Tap the grey card in the photo.').waitFor();
  const { outline } = demo.scene.card!;
  const xs = outline.map((p) => p[0]);
  const ys = outline.map((p) => p[1]);
  const drag = async (from: [number, number], to: [number, number]) => {
    await page.mouse.move(...(await onScreen(page, from, demo.width)));
    await page.mouse.down();
    await page.mouse.move(...(await onScreen(page, to, demo.width)), { steps: 5 });
    await page.locator('.box').waitFor();
    await page.mouse.up();
  };
  await drag([Math.min(...xs) - 20, Math.min(...ys) - 20], [Math.max(...xs) + 20, Math.max(...ys) + 20]);
  await page.locator('.outline[data-shape=card]').waitFor();
  // The view was not moved by the drag.
  await page.getByText('Tap tab').waitFor();
  await close();
});

it('types the colour of the card, and the readings follow', async () => {
  const { page, close } = await visit();
  const demo = await demoCase();
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await settled(page);
  await openDepths(page);
  const before = await numbers(page);
  const id = demo.scene.regions[0]!.id;
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button', { name: 'Grey card' }).click();
  await page.getByLabel('Reflectance is printed on it').check();
  // The demo's tabs hold against a card that is said to be lighter, but not wholly.
  await page.getByLabel('Reflectance (%)').fill('20');
  await settled(page);
  await expect.poll(async () => (await numbers(page))[id]!['middle']!.l).toBeGreaterThan(before[id]!['middle']!.l + 0.3);
  await page.keyboard.press('Escape');
  await close();
});
