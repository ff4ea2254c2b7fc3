import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { address, closeBrowser, openBrowser, visit } from './browser';
import { menu, openDemo, openPhoto, pick } from './desk';
import { demoCase } from './demo_case';
import { demoPlan, json, mode, press, type } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** Pixels of a canvas that are not clear. */
const painted = (page: Page, selector: string): Promise<number> =>
  page.locator(selector).evaluate((c: HTMLCanvasElement) => c.getContext('2d')!.getImageData(0, 0, c.width, c.height).data.filter((v, i) => i % 4 === 3 && v > 0).length);

it('refuses in words, then plans with demo stains: coats, difference, cautions, and says that they are invented', async () => {
  const { page, requests, errors, close } = await visit();
  await openDemo(page);
  await mode(page, 'Plan');
  await page.locator('[data-why=no-swatches]', { hasText: 'There is no stain to plan with.' }).waitFor();
  expect(await page.locator('.plan-sheet').count()).toBe(0);
  await press(page, 'Use demo stains');
  await page.locator('.plan-sheet').waitFor();
  await page.locator('.panel > .demo-line', { hasText: 'invented values, never for a patient' }).waitFor();
  expect(await page.locator('.plan-source h2').innerText()).toBe('Restoration 21 → Tooth 11');
  const thirds = page.locator('.plan-grid .third');
  expect(await thirds.count()).toBe(3);
  const numbers = await page.locator('.plan-grid .difference').evaluateAll((list) => list.map((e) => [Number((e as HTMLElement).dataset['before']), Number((e as HTMLElement).dataset['after'])]));
  // A plan that made any third worse would not be one; the demo's crown is bright enough to be helped.
  for (const [before, after] of numbers) expect(after!).toBeLessThanOrEqual(before!);
  expect(Math.max(...numbers.map(([before, after]) => before! - after!))).toBeGreaterThan(1);
  const bars = await page.locator('.plan-grid .coats-bar').evaluateAll((list) => list.map((e) => [Number((e as HTMLElement).dataset['coats']), Math.max(...[...e.querySelectorAll('rect')].map((r) => r.getBoundingClientRect().width))]));
  expect(bars.length).toBeGreaterThan(0);
  // Longer is more, on one scale.
  for (const [coats, px] of bars) expect(px! / coats!).toBeCloseTo(bars[0]![1]! / bars[0]![0]!, -1);
  expect(await page.locator('.cautions li').count()).toBeGreaterThan(1);
  await expect.poll(() => painted(page, '.predicted canvas:last-of-type')).toBeGreaterThan(1000);
  // Nothing more was fetched than the demo itself.
  expect(requests.map((url) => url.slice(address().length)).filter((p) => p.startsWith('demo/')).sort()).toEqual(['demo/demo.jpg', 'demo/demo.swatches.json', 'demo/scene.json']);
  const before = requests.length;
  await page.locator('.limits summary').click();
  await page.getByRole('button', { name: 'Coats per firing: less' }).click();
  await page.locator('.limits summary', { hasText: '2¾ coats per firing' }).waitFor();
  await page.getByRole('switch', { name: 'Show on the photo' }).click();
  await page.locator('.plan-patch').waitFor();
  await page.waitForTimeout(500);
  expect(requests.slice(before)).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

it('shows before and after by keys and by a drag, in the sheet and on the photo', async () => {
  const { page, errors, close } = await visit();
  await demoPlan(page);
  const line = page.locator('.panel').getByRole('slider', { name: 'Line between before and after' });
  await line.focus();
  expect(await line.getAttribute('aria-valuetext')).toBe('all after');
  for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
  expect(await line.getAttribute('aria-valuetext')).toBe('left 3 % before, right 97 % after');
  const clip = () => page.locator('.predicted canvas:last-of-type').evaluate((c) => (c as HTMLElement).style.clipPath);
  await page.locator('.predicted canvas:last-of-type').waitFor();
  expect(await clip()).toBe('inset(0px 0px 0px 3%)');
  const box = (await page.locator('.predicted').boundingBox())!;
  await page.mouse.move(box.x + box.width * 0.25, box.y + 40);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.5, box.y + 60, { steps: 4 });
  await page.mouse.up();
  expect(Number(/([\d.]+)%/.exec(await clip())![1])).toBeCloseTo(50, -0.5);

  await page.getByRole('switch', { name: 'Show on the photo' }).click();
  await page.locator('.plan-patch').waitFor();
  expect(await painted(page, '.plan-patch')).toBeGreaterThan(200);
  expect(await page.locator('.overlay.hidden').count()).toBe(1);
  // It lies on the restoration.
  const { scene, width } = await demoCase();
  const outline = scene.regions.find((r) => r.kind === 'restoration')!.outline;
  const [left, right] = [Math.min(...outline.map((p) => p[0])), Math.max(...outline.map((p) => p[0]))];
  const stage = (await page.locator('canvas.photo').boundingBox())!;
  const at = await page.locator('.plan-patch').evaluate((e) => {
    const { left, width } = e.getBoundingClientRect();
    return { left, width };
  });
  const k = stage.width / width;
  expect((at.left - stage.x) / k).toBeCloseTo(left, -1);
  expect((at.left + at.width - stage.x) / k).toBeCloseTo(right, -1);
  const onStage = page.locator('.plan-bar').getByRole('slider');
  await onStage.focus();
  await page.keyboard.press('Home');
  expect(await line.inputValue()).toBe('0');
  await press(page, 'Back to the plan');
  await page.locator('.plan-patch').waitFor({ state: 'detached' });
  expect(errors).toEqual([]);
  await close();
});

it('keeps the work over another photo and a reload, takes ticks back, and puts it away', async () => {
  const { page, errors, close } = await visit();
  await demoPlan(page);
  await page.getByLabel('Label (a number').fill('Case 7');
  const steps = page.locator('.plan-step input');
  const count = await steps.count();
  expect(count).toBeGreaterThan(3);
  const titles = await page.locator('.plan-step strong').allInnerTexts();
  await steps.first().check();
  await page.locator('.work-head', { hasText: 'Work at hand: Case 7' }).waitFor();
  await steps.nth(1).check();
  await page.keyboard.press('Control+z');
  await expect.poll(() => steps.nth(1).isChecked()).toBe(false);
  expect(await steps.first().isChecked()).toBe(true);

  await openPhoto(page, { ...(await demoCase()).photo, name: 'fired.jpg' });
  await page.locator('.file-name', { hasText: 'fired.jpg' }).waitFor();
  expect(await page.locator('.plan-step strong').allInnerTexts()).toEqual(titles);
  // What that photo shows is not what the plan began with.
  await page.getByText('The open photo shows other colours than this plan began with').waitFor();
  expect(await page.locator('.predicted').count()).toBe(0);
  await page.reload();
  await press(page, 'Plan by typed colours');
  await page.locator('.work-head', { hasText: 'Case 7' }).waitFor();
  expect(await page.locator('.plan-step strong').allInnerTexts()).toEqual(titles);
  expect(await steps.first().isChecked()).toBe(true);
  await press(page, 'Put away');
  await page.locator('[data-why=no-photo]').waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('prints a step sheet on one page: boxes to tick, coats, readings, limits, cautions', async () => {
  const { page, close } = await visit();
  await demoPlan(page);
  await page.getByLabel('Label (a number').fill('Case 7');
  await page.locator('.plan-step input').first().check();
  await page.emulateMedia({ media: 'print' });
  const sheet = page.locator('.step-sheet');
  await sheet.getByRole('heading', { name: 'Step sheet: Case 7' }).waitFor();
  expect(await sheet.locator('.tick-box').count()).toBe(await page.locator('.plan-step').count());
  expect(await sheet.locator('.tick-box', { hasText: '✓' }).count()).toBe(1);
  expect(await sheet.locator('.coats-bar').count()).toBeGreaterThan(0);
  const text = await sheet.innerText();
  for (const part of ['Restoration 21 → Tooth 11', 'never for a patient', 'coats per firing', 'With any stain']) expect(text).toContain(part);
  expect(text).toMatch(/L\* [\d.]+, a\* −?[\d.]+, b\* [\d.]+/);
  for (const other of ['.top-bar', '.modes', '.plan-steps', '.stage-frame']) expect(await page.locator(other).isVisible()).toBe(false);
  const pdf = await page.pdf({ format: 'A4' });
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  await close();
});

it('plans typed colours without a photo, and says what is missing', async () => {
  const { page, requests, errors, close } = await visit();
  await press(page, 'Plan by typed colours');
  await press(page, 'Type the colours');
  await page.locator('[data-why=typed]').waitFor();
  await press(page, 'Use demo stains');
  await type(page, 'Cervical third, restoration', [78, 0.2, 15]);
  await type(page, 'Cervical third, target', [74, 1.8, 19]);
  await page.locator('.plan-sheet').waitFor();
  expect(await page.locator('.plan-grid .third').count()).toBe(1);
  expect(await page.locator('.colours [role=img]').count()).toBe(3);
  await page.emulateMedia({ media: 'print' });
  // As wide as the paper.
  expect((await page.locator('.step-sheet').boundingBox())!.width).toBeGreaterThan(900);
  await page.emulateMedia({ media: 'screen' });
  expect(requests.filter((url) => !url.startsWith(address()))).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

it('makes no plan from a photo that has to be taken again, or without a restoration', async () => {
  const { page, close } = await visit();
  await demoPlan(page);
  const { scene } = await demoCase();
  const regions = scene.regions.filter((r) => r.kind !== 'restoration');
  await pick(page, () => menu(page, 'Open a saved scene'), json('none.json', { ...scene, regions }));
  await page.locator('[data-why=no-restoration]').waitFor();
  await press(page, 'Mark the restoration');
  await page.locator('.stage.tool-restoration').waitFor();
  // A card that reaches out of the photo far enough to leave too little of it.
  const outline = [[-90, 10], [8, 10], [8, 40], [-90, 40]];
  await pick(page, () => menu(page, 'Open a saved scene'), json('bad.json', { ...scene, card: { outline } }));
  await page.locator('[data-why=retake]').waitFor();
  expect(await page.locator('[data-why=retake]').innerText()).toMatch(/has to be taken again, so no plan is made from it: \S.{10,}/);
  expect(await page.locator('.plan-sheet').count()).toBe(0);
  await close();
});
