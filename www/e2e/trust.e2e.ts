import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { numbers, onScreen, openDemo, settled } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('says what the reading stands on and which tabs stand behind it', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const block = page.locator('.depth.stands');
  expect(await block.locator('.rungs li').count()).toBe(4);
  expect(await block.locator('.rungs li[aria-current]').innerText()).toContain('here');
  const { scene } = await demoCase();
  const tabs = scene.regions.filter((r) => r.kind === 'tab');
  await block.locator('summary').click();
  const lines = (await block.locator('ul li').allInnerTexts()).join('\n');
  for (const { name } of tabs) expect(lines).toContain(`${name}:`);
  // Without tabs it stands on less, and says what would raise it.
  for (const { id } of tabs) {
    await page.getByRole('group', { name: 'Outlines' }).getByRole('button', { name: `Tab ${tabs.find((t) => t.id === id)!.name}`, exact: true }).click();
    await page.locator('.selection-bar').getByRole('button', { name: 'Delete' }).click();
  }
  await settled(page);
  await expect.poll(() => block.locator('.rungs li[aria-current]').innerText()).toContain('Grey card');
  expect(await block.locator('.raise').innerText()).toMatch(/\S/);
  expect(errors).toEqual([]);
  await close();
});

it('is told that a photo was taken through crossed polarisers, and forgets it on undo', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const before = await numbers(page);
  const turn = page.getByRole('switch', { name: 'This photo was taken through crossed polarisers' });
  expect(await turn.getAttribute('aria-checked')).toBe('false');
  await turn.click();
  await settled(page);
  expect(await turn.getAttribute('aria-checked')).toBe('true');
  // The sheen that is estimated for a plain photo is not taken out now.
  await expect.poll(async () => JSON.stringify(await numbers(page))).not.toBe(JSON.stringify(before));
  await page.keyboard.press('Control+z');
  await settled(page);
  expect(await turn.getAttribute('aria-checked')).toBe('false');
  await expect.poll(() => numbers(page)).toEqual(before);
  expect(errors).toEqual([]);
  await close();
});

it('takes a card at a second place by a tap, and lets go of it', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const demo = await demoCase();
  await page.getByRole('button', { name: 'Card at a second place' }).click();
  // By numbers: the demo has one card only.
  await page.getByRole('button', { name: 'By numbers' }).first().click();
  const outline = page.locator('.outline[data-shape=second]');
  await outline.waitFor({ state: 'attached' });
  await settled(page);
  const chip = page.getByRole('group', { name: 'Outlines' }).getByRole('button', { name: 'Card at a second place' });
  expect(await chip.getAttribute('aria-pressed')).toBe('true');
  await page.locator('.selection-bar').getByRole('button', { name: 'Delete' }).click();
  await outline.waitFor({ state: 'detached' });
  // By a tap: on the card itself, as the picture has no other grey.
  await page.getByRole('button', { name: 'Card at a second place' }).click();
  const [x, y] = await onScreen(page, demo.cardMiddle, demo.width);
  await page.mouse.move(x - 12, y - 12);
  await page.mouse.down();
  await page.mouse.move(x + 12, y + 12, { steps: 5 });
  await page.mouse.up();
  await outline.waitFor({ state: 'attached' });
  expect(errors).toEqual([]);
  await close();
});
