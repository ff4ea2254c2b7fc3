import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { words as german } from '../src/words/de';
import { words as spanish } from '../src/words/es';
import { complaints, cramped } from './axe';
import { closeBrowser, openBrowser, visit } from './browser';
import { demoCase } from './demo_case';
import { menu, onScreen, openDemo } from './desk';

beforeAll(openBrowser);
afterAll(closeBrowser);

const surround = (page: Page) => page.evaluate(() => document.documentElement.dataset['surround']);
const colourOf = (page: Page, selector: string) => page.locator(selector).first().evaluate((e) => getComputedStyle(e).backgroundColor);
const kept = (page: Page) => page.evaluate(() => localStorage.getItem('tabside.settings.1'));
const view = (page: Page) =>
  page.locator('canvas.photo').evaluate((e) => {
    const { left, top, width } = e.getBoundingClientRect();
    return { left, top, width };
  });
/** How many times as large as before. */
const grown = async (page: Page, act: () => Promise<unknown>) => {
  const before = (await view(page)).width;
  await act();
  await page.waitForTimeout(80);
  return (await view(page)).width / before;
};
const openDepth = async (page: Page, name: string) => {
  const head = page.locator(`.depth.${name} > h2 > button`);
  if ((await head.getAttribute('aria-expanded')) === 'false') await head.click();
};

it('the page can be light; pictures keep their surround, paper stays white; it is remembered', async () => {
  const { page, errors, close } = await visit({ bypassCSP: true });
  expect([await surround(page), await kept(page)]).toEqual(['dark', null]);
  await openDemo(page);
  const middle = await colourOf(page, '.stage-area');
  await menu(page, 'Settings');
  await page.getByLabel('Light', { exact: true }).check();
  expect([await surround(page), await kept(page)]).toEqual(['light', '{"surround":"light"}']);
  expect(await complaints(page)).toEqual([]);
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('dialog').count()).toBe(0);
  await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe('More');
  expect([middle, await colourOf(page, '.stage-area')]).toEqual(['rgb(118, 118, 118)', 'rgb(118, 118, 118)']);
  await page.emulateMedia({ media: 'print' });
  expect(await colourOf(page, '.panel')).toBe('rgb(255, 255, 255)');
  await page.emulateMedia({ media: 'screen', colorScheme: 'dark' });
  await page.reload();
  expect(await surround(page)).toBe('light');
  await menu(page, 'Settings');
  await page.getByLabel('As this device is set').check();
  expect(await surround(page)).toBe('dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await expect.poll(() => surround(page)).toBe('light');
  expect(errors).toEqual([]);
  await close();
});

it.each(['light', 'dark'] as const)('axe finds nothing to object to: %s', async (chosen) => {
  const { page, close } = await visit({ bypassCSP: true });
  await page.evaluate((s) => localStorage.setItem('tabside.settings.1', JSON.stringify({ surround: s })), chosen);
  await page.reload();
  expect(await complaints(page)).toEqual([]);
  await openDemo(page);
  for (const head of await page.locator('.depth > h2 > button').all()) await head.click();
  expect(await complaints(page)).toEqual([]);
  await page.locator('.term:visible').first().click();
  await page.locator('.help-box:popover-open').waitFor();
  expect(await complaints(page)).toEqual([]);
  await page.keyboard.press('Escape');
  await page.locator('.tour-offer').click();
  await page.locator('.tour').waitFor();
  expect(await complaints(page)).toEqual([]);
  expect((await cramped(page)).small).toEqual([]);
  await page.keyboard.press('Escape');
  await menu(page, 'Keys');
  expect(await complaints(page)).toEqual([]);
  await page.keyboard.press('Escape');
  for (const mode of ['Plan', 'Swatches', 'Practice']) {
    await page.locator('.modes').getByRole('button', { name: mode }).click();
    const use = page.getByRole('button', { name: 'Use demo stains' });
    if (mode === 'Plan') {
      await use.click();
      await page.locator('.plan-step').first().waitFor();
    }
    expect([mode, await complaints(page)]).toEqual([mode, []]);
  }
  await close();
});

it('speaks another language at once, asks no server for it, loses nothing, and remembers', async () => {
  const { page, requests, errors, close } = await visit();
  await openDemo(page);
  const demo = await demoCase();
  await page.mouse.click(...(await onScreen(page, demo.inside(demo.scene.regions[0]!.id), demo.width)));
  await page.locator('.selection-bar').waitFor();
  await openDepth(page, 'numbers');
  const cell = page.locator('.numbers [data-number=l]').first();
  const english = (await cell.textContent())!;
  await page.waitForLoadState('networkidle');
  const before = requests.length;
  await menu(page, 'Settings');
  await page.getByLabel('Deutsch').check();
  await page.locator('.modes').getByText(german.modes.names.reading).waitFor();
  await page.keyboard.press('Escape');
  expect(requests.slice(before)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.lang)).toBe('de');
  expect([english, await cell.textContent()]).toEqual([expect.stringMatching(/^\d+\.\d$/), english.replace('.', ',')]);
  expect(await page.locator('.selection-bar').count()).toBe(1);
  await page.reload();
  await page.getByText(german.start.demo).click();
  await page.locator('.modes').getByText(german.modes.names.reading).waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('begins in the language that the browser asks for', async () => {
  const { page, close } = await visit({ locale: 'es-MX' });
  await page.getByRole('button', { name: spanish.modes.openPlan }).click();
  expect(await page.locator('.modes').textContent()).toContain(spanish.modes.names.swatches);
  expect([await page.evaluate(() => document.documentElement.lang), await kept(page)]).toEqual(['es', null]);
  await close();
});

it('what is saved as CSV keeps its points in every language', async () => {
  const { page, close } = await visit({ locale: 'de-DE' });
  await page.getByText(german.start.demo).click();
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await page.getByRole('button', { name: german.menu.more, exact: true }).click();
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: german.menu.saveCsv }).click()]);
  const { readFileSync } = await import('node:fs');
  const [head, row] = readFileSync((await file.path())!, 'utf8').split('\r\n');
  const cells = row!.replace(/"([^"]|"")*"/g, 'quoted').split(',');
  expect(cells.length).toBe(head!.split(',').length);
  expect(cells[5]).toMatch(/^\d+\.\d+$/);
  // Lines are drawn in points too.
  const paths = await page.locator('.outline .line').evaluateAll((all) => all.map((e) => e.getAttribute('d')!));
  expect(paths.filter((d) => !/^M[-\d. LMZ]+$/.test(d))).toEqual([]);
  await close();
});

it('the wheel and keys zoom the photo, arrows move it', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const box = (await page.locator('.stage').boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  expect(await grown(page, () => page.mouse.wheel(0, -400))).toBeGreaterThan(1.5);
  await page.locator('.stage').focus();
  expect(await grown(page, () => page.keyboard.press('-'))).toBeCloseTo(0.8, 2);
  expect(await grown(page, () => page.keyboard.press('+'))).toBeCloseTo(1.25, 2);
  const before = await view(page);
  await page.keyboard.press('ArrowRight');
  expect((await view(page)).left - before.left).toBeCloseTo(-60, 0);
  await page.keyboard.press('1');
  const demo = await demoCase();
  expect((await view(page)).width).toBeCloseTo(demo.width, 0);
  await page.keyboard.press('0');
  const fitted = await view(page);
  expect(fitted.width).toBeLessThan(box.width);
  await close();
});

it('a double tap goes nearer to that place and back, and changes no outline', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const demo = await demoCase();
  const id = demo.scene.regions[0]!.id;
  const outlines = () => page.locator('.outline').count();
  const count = await outlines();
  const place = () => onScreen(page, demo.inside(id), demo.width);
  const at = await place();
  expect(await grown(page, () => page.mouse.dblclick(...at))).toBeCloseTo(2.5, 1);
  // The place stays under the finger, and what was tapped is selected.
  const after = await place();
  expect(Math.hypot(after[0] - at[0], after[1] - at[1])).toBeLessThan(2);
  await page.locator('.selection-bar').waitFor();
  const shape = await page.locator('.outline.chosen .line').getAttribute('d');
  await page.waitForTimeout(500);
  expect(await grown(page, () => page.mouse.dblclick(...at))).toBeCloseTo(0.4, 1);
  await page.waitForTimeout(600);
  expect(await grown(page, () => page.mouse.dblclick(...at))).toBeCloseTo(2.5, 1);
  await page.waitForTimeout(600);
  expect([await page.locator('.outline.chosen .line').getAttribute('d'), await outlines()]).toEqual([shape, count]);
  // Beside everything it outlines nothing.
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  const empty = (await page.locator('.stage').boundingBox())!;
  expect(await grown(page, () => page.mouse.dblclick(empty.x + 40, empty.y + 40))).toBeCloseTo(2.5, 1);
  await page.waitForTimeout(600);
  expect(await outlines()).toBe(count);
  await close();
});

it('two fingers zoom', async () => {
  const { page, close } = await visit({ hasTouch: true });
  await openDemo(page);
  const { x, y, width, height } = (await page.locator('.stage').boundingBox())!;
  const [mx, my] = [x + width / 2, y + height / 2];
  const touch = await page.context().newCDPSession(page);
  const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', apart: number | null) =>
    touch.send('Input.dispatchTouchEvent', { type, touchPoints: apart === null ? [] : [{ x: mx - apart, y: my, id: 0 }, { x: mx + apart, y: my, id: 1 }] });
  const outlines = await page.locator('.outline').count();
  const by = await grown(page, async () => {
    await send('touchStart', 40);
    for (let apart = 45; apart <= 80; apart += 5) await send('touchMove', apart);
    await send('touchEnd', null);
  });
  expect(by).toBeCloseTo(2, 0);
  expect(await page.locator('.outline').count()).toBe(outlines);
  expect(await page.locator('.selection-bar').count()).toBe(0);
  await close();
});

it('a question mark lists the keys; single keys can be turned off', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  await page.locator('.stage').focus();
  await page.keyboard.press('?');
  await page.locator('dialog.keys').waitFor();
  expect(await page.locator('dialog.keys').textContent()).toContain('Hides the outlines while it is held');
  await page.keyboard.press('Escape');
  expect(await page.evaluate(() => document.activeElement?.className)).toContain('stage');
  await menu(page, 'Settings');
  await page.getByRole('switch', { name: 'Single keys' }).click();
  await page.keyboard.press('Escape');
  await page.locator('dialog').waitFor({ state: 'detached' });
  await page.keyboard.press('?');
  await page.keyboard.down('h');
  expect(await page.locator('dialog').count()).toBe(0);
  expect(await page.locator('.overlay.hidden').count()).toBe(0);
  await close();
});

it('a word explains itself right there, by keyboard and by touch', async () => {
  const { page, close } = await visit({ viewport: { width: 390, height: 844 }, hasTouch: true });
  await openDemo(page);
  await openDepth(page, 'tabs');
  const term = page.locator('.ladder .term, .depth.tabs .term').first();
  const box = page.locator('.help-box');
  await term.focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => box.isVisible()).toBe(true);
  expect(await term.getAttribute('aria-expanded')).toBe('true');
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('help-box');
  expect(await box.textContent()).toContain('Paravina et al. 2015');
  const { x, y, width, height } = (await box.boundingBox())!;
  expect([x >= 0, y >= 0, x + width <= 390, y + height <= 844]).toEqual([true, true, true, true]);
  await page.keyboard.press('Escape');
  expect(await box.isVisible()).toBe(false);
  expect(await page.evaluate(() => document.activeElement?.getAttribute('data-term'))).toBe('deltaE');
  await expect.poll(() => term.getAttribute('aria-expanded')).toBe('false');
  await term.tap();
  await expect.poll(() => box.isVisible()).toBe(true);
  await term.tap();
  await expect.poll(() => box.isVisible()).toBe(false);
  await term.tap();
  await expect.poll(() => box.isVisible()).toBe(true);
  await page.touchscreen.tap(200, 20);
  await expect.poll(() => box.isVisible()).toBe(false);
  await close();
});

it.each([
  [1180, 820],
  [390, 844],
])('the tour is offered with the demo, shows what is there, and is remembered (%i × %i)', async (width, height) => {
  const { page, errors, close } = await visit({ viewport: { width, height }, reducedMotion: 'reduce' });
  await openDemo(page);
  const offer = page.getByRole('button', { name: 'Show me around – 40 seconds' });
  await offer.click();
  const tour = page.getByRole('dialog', { name: 'A look around' });
  await tour.waitFor();
  await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('dialog');
  const seen: string[] = [];
  for (let i = 0; i < 8 && (await tour.isVisible()); i++) {
    seen.push((await tour.getByRole('heading').textContent())!);
    await expect.poll(() => page.locator('.tour-ring').count()).toBe(1);
    const ring = (await page.locator('.tour-ring').boundingBox())!;
    expect([ring.x >= 0, ring.y >= 0, ring.x + ring.width <= width, ring.y + ring.height <= height, ring.height > 15]).toEqual([true, true, true, true, true]);
    // What is pointed at is not wholly under the words.
    const words = (await tour.boundingBox())!;
    expect([seen.at(-1), words.y <= ring.y && words.y + words.height >= ring.y + ring.height && words.x <= ring.x && words.x + words.width >= ring.x + ring.width]).toEqual([seen.at(-1), false]);
    await page.keyboard.press('Tab');
    await tour.getByRole('button', { name: /Next|Done/ }).click();
  }
  expect(seen.slice(0, 5)).toEqual(['The photo', 'Can it be trusted?', 'The answer', 'What to paint', 'More when you want it']);
  expect(seen.at(-1)).toBe('For the patient');
  expect(await offer.count()).toBe(0);
  await page.reload();
  await openDemo(page);
  expect(await offer.count()).toBe(0);
  await menu(page, 'Show me around');
  await expect.poll(() => tour.evaluate((e) => e === document.activeElement)).toBe(true);
  await page.keyboard.press('Escape');
  expect(await tour.count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

it('the tour passes over what is missing', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  await page.evaluate(() => document.querySelectorAll('.checks, .paint, .advice').forEach((e) => e.remove()));
  await menu(page, 'Show me around');
  const tour = page.getByRole('dialog', { name: 'A look around' });
  await tour.waitFor();
  await tour.getByRole('button', { name: 'Next' }).click();
  expect(await tour.getByRole('heading').textContent()).toBe('The answer');
  await tour.getByRole('button', { name: 'Back' }).click();
  expect(await tour.getByRole('heading').textContent()).toBe('The photo');
  await close();
});
