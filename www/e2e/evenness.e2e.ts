import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { openDemo, outlineOn, settled } from './desk';
import { demoCase } from './demo_case';
import { boundsOf } from '../src/state/shapes';
import { complaints, SIZES, showMode } from './passes_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('says how even each third is, and shows where it is not, over the region it belongs to', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const cells = page.locator('.evenness-table tbody tr[data-zone=middle] td');
  for (const text of await cells.allInnerTexts()) expect(text).toMatch(/^(even|a little patchy|patchy) \d+\.\d$/);
  const inTable = await page.locator('.numbers tbody tr[data-zone=middle] [data-number=blotch]').first().innerText();
  expect(inTable).toMatch(/^\d+\.\d (even|a little patchy|patchy)$/);

  const toggle = page.getByRole('switch', { name: 'Where it is uneven' });
  await toggle.click();
  const maps = page.locator('canvas.over.map.uneven');
  await expect.poll(() => maps.count()).toBe(2);
  await page.getByRole('status').filter({ hasText: 'clear where it is even, dark where darker' }).waitFor();
  // The map of the restoration lies on its outline, and is clear beyond it.
  const { scene, width } = await demoCase();
  const crown = scene.regions.find((r) => r.kind === 'restoration')!;
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button', { name: 'Restoration 21', exact: true }).click();
  await expect.poll(() => maps.count()).toBe(1);
  await settled(page);
  const outline = boundsOf(await outlineOn(page, `region:${crown.id}`, width));
  const { place, corner, seen } = await maps.first().evaluate((canvas) => {
    const map = canvas as HTMLCanvasElement;
    const photo = document.querySelector('canvas.photo')!.getBoundingClientRect();
    const box = map.getBoundingClientRect();
    const { data } = map.getContext('2d')!.getImageData(0, 0, map.width, map.height);
    const alphas = Array.from({ length: data.length / 4 }, (_, i) => data[4 * i + 3]!);
    return { place: [box.left, box.top, box.right, box.bottom].map((v, i) => v - (i % 2 ? photo.top : photo.left)), corner: alphas[0], seen: alphas.filter((a) => a > 0).length / alphas.length, photoWidth: photo.width };
  });
  const k = await page.locator('canvas.photo').evaluate((c, width) => c.getBoundingClientRect().width / width, width);
  [outline.left, outline.top, outline.right, outline.bottom].forEach((v, i) => expect(Math.abs(place[i]! / k - v)).toBeLessThan(12));
  expect(corner).toBe(0);
  expect(seen).toBeGreaterThan(0.2);

  // Hidden with the outlines, and by its own button.
  await page.keyboard.down('h');
  expect(await maps.count()).toBe(0);
  await page.keyboard.up('h');
  await expect.poll(() => maps.count()).toBe(1);
  await page.getByRole('group', { name: 'Where it is uneven' }).getByRole('button', { name: 'Hide' }).click();
  expect([await maps.count(), await toggle.getAttribute('aria-checked')]).toEqual([0, 'false']);
  expect(errors).toEqual([]);
  await close();
});

it('shows where the restoration differs from its target: lighter, as the numbers say, and on it alone', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const uneven = page.getByRole('switch', { name: 'Where it is uneven' });
  await uneven.click();
  await page.getByRole('switch', { name: 'Where it differs' }).click();
  // One map at a time.
  expect(await uneven.getAttribute('aria-checked')).toBe('false');
  const map = page.locator('canvas.over.map.differing');
  await expect.poll(() => map.count()).toBe(1);
  const read = () =>
    map.evaluate((canvas) => {
      const { width, height } = canvas as HTMLCanvasElement;
      const { data } = (canvas as HTMLCanvasElement).getContext('2d')!.getImageData(0, 0, width, height);
      const seen = Array.from({ length: data.length / 4 }, (_, i) => ({ level: data[4 * i]!, alpha: data[4 * i + 3]! })).filter((p) => p.alpha > 8);
      return { corner: data[3]!, lighter: seen.filter((p) => p.level > 127).length / seen.length, alpha: seen.reduce((sum, p) => sum + p.alpha, 0) / seen.length };
    });
  await expect.poll(async () => (await read()).lighter).toBeGreaterThan(0.9);
  const { corner, alpha } = await read();
  expect(corner).toBe(0);
  // Full at ΔE00 6 with an opacity of 200: the mean of the three thirds, about 3.5, within a third.
  const deltas = await page.locator('.difference[data-delta-e]').evaluateAll((all) => all.map((e) => Number(e.getAttribute('data-delta-e'))));
  const mean = deltas.reduce((a, b) => a + b) / deltas.length;
  expect(Math.abs(((alpha / 200) * 6) / mean - 1)).toBeLessThan(1 / 3);
  await page.getByRole('group', { name: 'Where it differs' }).getByRole('button', { name: 'Hide' }).click();
  expect(await map.count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

it.each(Object.entries(SIZES))('axe finds nothing to object to in the map of unevenness (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  await openDemo(page);
  await page.getByRole('switch', { name: 'Where it is uneven' }).click();
  await page.locator('.evenness-key').waitFor();
  expect(await complaints(page)).toEqual([]);
  if (viewport.width < 640) await showMode(page, 'Reading');
  expect(await complaints(page)).toEqual([]);
  await close();
});
