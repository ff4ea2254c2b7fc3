import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { numbers, onScreen, openDemo, settled } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

async function selectTooth(page: Page): Promise<string> {
  const demo = await demoCase();
  const tooth = demo.scene.regions.find((r) => r.kind === 'tooth')!;
  await page.mouse.click(...(await onScreen(page, demo.inside(tooth.id), demo.width)));
  await page.locator('.selection-bar').waitFor();
  await page.locator('.selection-bar').getByRole('button', { name: /Zoom/ }).click();
  await page.locator('.handle.point').first().waitFor();
  return tooth.id;
}

const pathOf = (page: Page, id: string) => page.locator(`.outline[data-shape="region:${id}"] .line`).getAttribute('d');

async function dragBy(page: Page, selector: string, dx: number, dy: number): Promise<void> {
  const box = (await page.locator(selector).first().boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2 + dx, box.y + box.height / 2 + dy, { steps: 8 });
  await page.mouse.up();
}

it('updates the readings while an outline is dragged, and undo takes the whole drag back', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const id = await selectTooth(page);
  const before = await numbers(page);
  const shape = await pathOf(page, id);

  const handle = page.locator('.handle.point').nth(2);
  const box = (await handle.boundingBox())!;
  expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(43.9);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const middle = (await page.locator('.handle.move').boundingBox())!;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + (middle.x - x) * 0.6, y + (middle.y - y) * 0.6, { steps: 10 });
  // Still held: the numbers have followed already.
  await expect.poll(async () => JSON.stringify((await numbers(page))[id])).not.toBe(JSON.stringify(before[id]));
  await page.mouse.up();
  await settled(page);
  await expect.poll(() => pathOf(page, id)).not.toBe(shape);

  await page.keyboard.press('Control+z');
  await expect.poll(() => pathOf(page, id)).toBe(shape);
  await settled(page);
  await expect.poll(() => numbers(page)).toEqual(before);
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(() => pathOf(page, id)).not.toBe(shape);
  expect(errors).toEqual([]);
  await close();
});

it('moves an outline as a whole and sets its axis', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const id = await selectTooth(page);
  const before = (await numbers(page))[id]!;
  const shape = await pathOf(page, id);
  await dragBy(page, '.handle.move', 30, 0);
  await expect.poll(() => pathOf(page, id)).not.toBe(shape);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => pathOf(page, id)).toBe(shape);
  await settled(page);

  // The cervical end a third down the tooth: the cervical third is another place now.
  const grip = (await page.locator('.handle.cervical .dot').boundingBox())!;
  const end = (await page.locator('.handle.incisal .dot').boundingBox())!;
  await dragBy(page, '.handle.cervical .dot', (end.x - grip.x) / 3, (end.y - grip.y) / 3);
  await expect.poll(async () => (await numbers(page))[id]!['cervical']!.b).toBeLessThan(before['cervical']!.b - 0.5);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(async () => (await numbers(page))[id]).toEqual(before);

  // The axis turned round by numbers: what was cervical is incisal.
  await page.locator('.selection-bar').getByRole('button', { name: 'By numbers' }).click();
  const field = (name: string) => page.getByLabel(name, { exact: true });
  const names = ['Cervical end, Across (px)', 'Cervical end, Down (px)', 'Incisal end, Across (px)', 'Incisal end, Down (px)'];
  const [cx, cy, ix, iy] = (await Promise.all(names.map((n) => field(n).inputValue()))) as [string, string, string, string];
  for (const [name, value] of [[names[0], ix], [names[1], iy], [names[2], cx], [names[3], cy]] as const) await field(name!).fill(value);
  await settled(page);
  await expect.poll(async () => (await numbers(page))[id]!['cervical']!.b).toBeCloseTo(before['incisal']!.b, 0);
  await expect.poll(async () => (await numbers(page))[id]!['incisal']!.b).toBeCloseTo(before['cervical']!.b, 0);
  await close();
});

it('adds and removes points, and deletes an outline with a way back', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const id = await selectTooth(page);
  const count = async () => ((await pathOf(page, id)) ?? '').split('L').length;
  const before = await count();
  await page.locator('.handle.point').nth(1).click();
  await page.getByRole('button', { name: 'Add a point' }).click();
  await expect.poll(count).toBe(before + 1);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.locator('.handle.point').nth(1).click();
  await page.getByRole('button', { name: 'Remove the point' }).click();
  await expect.poll(count).toBeLessThan(before);
  await page.locator('.selection-bar').getByRole('button', { name: 'Delete' }).click();
  await expect.poll(async () => Object.keys(await numbers(page))).not.toContain(id);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(async () => Object.keys(await numbers(page))).toContain(id);
  await close();
});

it('hides the outlines while the key or the button is held', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const outline = page.locator('.outline').first();
  await page.keyboard.down('h');
  await expect.poll(() => outline.isVisible()).toBe(false);
  await page.keyboard.up('h');
  await expect.poll(() => outline.isVisible()).toBe(true);
  const box = (await page.getByRole('button', { name: 'Hide outlines' }).boundingBox())!;
  await page.mouse.move(box.x + 10, box.y + 10);
  await page.mouse.down();
  await expect.poll(() => outline.isVisible()).toBe(false);
  await page.mouse.up();
  await expect.poll(() => outline.isVisible()).toBe(true);
  await close();
});
