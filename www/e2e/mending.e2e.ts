import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { numbers, settled } from './desk';
import { bar, keysOf, lyingOn, opened, undo } from './found_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('outlines what is missing by one tap, takes another outline by a second, and goes back', async () => {
  const { page, errors, close } = await visit();
  const { demo, region, at, key, path } = await opened(page, 'tooth');
  await page.mouse.click(...at);
  await page.keyboard.press('Delete');
  await expect.poll(() => keysOf(page)).not.toContain(key);
  const before = await keysOf(page);

  await page.mouse.click(...at);
  // Past a double tap on the photo, and there the clock stands: however busy the machine is, the next
  // tap comes at the moment at which the outline was laid.
  await page.evaluate(() => {
    const then = performance.now() + 400;
    performance.now = () => then;
  });
  await expect.poll(async () => (await keysOf(page)).length).toBe(before.length + 1);
  const first = await path();

  // A double tap is one tap: many enlarge so. Later it asks for another outline.
  await page.mouse.click(...at);
  await page.waitForTimeout(400);
  expect(await path()).toBe(first);
  await page.evaluate(() => void Reflect.deleteProperty(performance, 'now'));
  const again = await lyingOn(page, region.outline, demo.width);
  expect([before.includes(again.key), again.share > 0.85]).toEqual([false, true]);
  await page.mouse.click(...at);
  await bar(page).getByText(/^Outline 2 of [2-5]$/).waitFor();
  await expect.poll(path).not.toBe(first);
  const second = await path();
  expect((await keysOf(page)).length).toBe(before.length + 1);
  await undo(page);
  await expect.poll(path).toBe(first);
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect.poll(path).toBe(second);
  // By the button, until the first one is back.
  const other = bar(page).getByRole('button', { name: 'Other outline' });
  for (let i = 0; i < 5 && (await path()) !== first; i++) {
    const now = await path();
    await other.press('Enter');
    await expect.poll(path).not.toBe(now);
  }
  expect(await path()).toBe(first);
  for (let i = 0; i < 12 && (await keysOf(page)).length > before.length; i++) await undo(page);
  expect(await keysOf(page)).toEqual(before);
  expect(errors).toEqual([]);
  await close();
});

it('cuts the selected outline by a swipe across it, pans by any other drag, and goes back', async () => {
  const { page, errors, close } = await visit({ hasTouch: true });
  const { at, key, path } = await opened(page, 'tab');
  const count = async () => (await keysOf(page)).length;
  const [before, shape] = [await count(), await path()];
  const drag = async (from: [number, number], to: [number, number]) => {
    await page.mouse.move(...from);
    await page.mouse.down();
    await page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2, { steps: 4 });
    const drawn = await page.locator('.stroke').count();
    await page.mouse.move(...to, { steps: 4 });
    await page.mouse.up();
    return drawn;
  };
  const place = async () => (await page.locator('canvas.photo').boundingBox())!;
  const line = async () => (await page.locator(`.outline[data-shape="${key}"] .line`).boundingBox())!;

  await page.mouse.click(...at);
  await bar(page).waitFor();
  const box = await line();
  const y = box.y + box.height * 0.35;
  expect(await drag([box.x - 30, y], [box.x + box.width + 25, y])).toBe(1);
  await expect.poll(count).toBe(before + 1);
  await bar(page).getByText('Cut in two.').waitFor();
  // The piece with the middle is still that tab; both stand upright.
  expect((await line()).height).toBeLessThan(box.height * 0.8);
  await undo(page);
  await expect.poll(async () => [await count(), await path()]).toEqual([before, shape]);
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect.poll(count).toBe(before + 1);
  await undo(page);

  // A cut that only takes the edge off leaves one.
  await drag([box.x - 30, box.y + box.height * 0.07], [box.x + box.width + 25, box.y + box.height * 0.07]);
  await expect.poll(path).not.toBe(shape);
  expect(await count()).toBe(before);
  await undo(page);
  await expect.poll(path).toBe(shape);

  // By a finger.
  const cdp = await page.context().newCDPSession(page);
  const touch = (type: string, points: [number, number][]) =>
    cdp.send('Input.dispatchTouchEvent', { type: type as 'touchStart', touchPoints: points.map(([x, y]) => ({ x, y })) });
  await touch('touchStart', [[box.x - 30, y]]);
  for (let i = 1; i <= 10; i++) await touch('touchMove', [[box.x - 30 + (i * (box.width + 55)) / 10, y]]);
  await touch('touchEnd', []);
  await expect.poll(count).toBe(before + 1);
  await undo(page);
  await expect.poll(async () => [await count(), await path()]).toEqual([before, shape]);

  // Away from the outline, and from inside it: the photo moves.
  const start = await place();
  expect(await drag([box.x - 30, y], [box.x - 90, y])).toBe(0);
  await expect.poll(async () => Math.round((await place()).x - start.x)).toBe(-60);
  expect([await count(), await bar(page).count()]).toEqual([before, 1]);
  expect(errors).toEqual([]);
  await close();
});

it('cuts by a button and keys, along a line whose ends move', async () => {
  const { page, errors, close } = await visit();
  const { at, path } = await opened(page, 'tooth');
  await page.mouse.click(...at);
  const [shape, before] = [await path(), (await keysOf(page)).length];
  await bar(page).getByRole('button', { name: 'Cut', exact: true }).press('Enter');
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('cut-end-0');
  const line = page.locator('path.stroke');
  const laid = await line.getAttribute('d');
  await page.keyboard.press('Shift+ArrowUp');
  await expect.poll(() => line.getAttribute('d')).not.toBe(laid);
  await page.keyboard.press('Escape');
  await line.waitFor({ state: 'detached' });
  expect(await path()).toBe(shape);
  await bar(page).getByRole('button', { name: 'Cut', exact: true }).press('Enter');
  await bar(page).getByRole('button', { name: 'Turn the line' }).press('Enter');
  await bar(page).getByRole('button', { name: 'Cut here' }).press('Enter');
  await expect.poll(async () => (await keysOf(page)).length).toBe(before + 1);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => [(await keysOf(page)).length, await path()]).toEqual([before, shape]);
  expect(errors).toEqual([]);
  await close();
});

it('moves the borders of the thirds by a drag, by keys and by numbers; the readings and the sheet follow', async () => {
  const { page, errors, close } = await visit();
  const { at, key } = await opened(page, 'tooth');
  await page.mouse.click(...at);
  await bar(page).getByRole('button', { name: 'Zoom in' }).click();
  await bar(page).getByRole('button', { name: 'By numbers' }).click();
  const field = page.getByLabel('Cervical third ends at (%)');
  const id = key.replace('region:', '');
  const before = (await numbers(page))[id]!;
  const grip = page.locator('.handle.border-0');
  const box = (await grip.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + 40, { steps: 5 });
  await page.mouse.up();
  await expect.poll(async () => Number(await field.inputValue())).toBeGreaterThan(36);
  await settled(page);
  await expect.poll(async () => (await numbers(page))[id]!['cervical']!.b).not.toBe(before['cervical']!.b);
  await undo(page);
  await expect.poll(async () => Number(await field.inputValue())).toBeCloseTo(33.33, 1);
  await grip.focus();
  await page.keyboard.press('ArrowDown');
  await expect.poll(async () => Number(await field.inputValue())).toBeCloseTo(34.3, 1);
  await page.keyboard.press('Shift+ArrowUp');
  await expect.poll(async () => Number(await field.inputValue())).toBeCloseTo(29.3, 1);
  await field.fill('50');
  await settled(page);
  await bar(page).getByRole('button', { name: 'Compare with this one' }).click();
  await page.getByText('Thirds of your own are drawn to one height').waitFor();
  await page.getByRole('button', { name: 'Even thirds' }).click();
  await expect.poll(async () => Number(await field.inputValue())).toBeCloseTo(33.33, 1);
  await settled(page);
  await expect.poll(async () => (await numbers(page))[id]).toEqual(before);
  expect(errors).toEqual([]);
  await close();
});
