import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { openPhoto, settled } from './desk';
import { demoCase } from './demo_case';
import { SIZES } from './passes_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** The demo as a user finds it: with nothing unfolded. */
async function openFolded(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.locator('.third .difference[data-delta-e]').first().waitFor();
  await settled(page);
}

/** What of the answer can be seen without a scroll or a swipe. */
const inSight = (page: Page, selector: string) =>
  page.locator(selector).evaluateAll((all) => {
    const panel = document.querySelector('.panel')!.getBoundingClientRect();
    const bar = document.querySelector('.next-bar')!.getBoundingClientRect();
    return all.filter((e) => {
      const { top, bottom, left, right } = e.getBoundingClientRect();
      return top >= panel.top && bottom <= Math.min(panel.bottom, bar.top) + 1 && left >= panel.left && right <= panel.right + 1;
    }).length;
  });

it('has the answer of all thirds, and what comes next, in one glance on a tablet', async () => {
  const { page, errors, close } = await visit({ viewport: { width: 1180, height: 820 } });
  await openFolded(page);
  for (const cell of ['.third .nearest', '.third .difference', '.third .paint li:last-child']) expect([cell, await inSight(page, cell)]).toEqual([cell, 3]);
  for (const text of await page.locator('.third .nearest .verdict').allInnerTexts()) expect(text).toMatch(/^(clearly the nearest|could as well be \S+)/);
  const bar = page.locator('.next-bar');
  for (const name of ['Plan the stains', 'Show the patient']) expect((await bar.getByRole('button', { name }).boundingBox())!.height).toBeGreaterThanOrEqual(44);
  await bar.getByRole('button', { name: 'Plan the stains' }).click();
  await page.locator('#plan').waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('needs three taps from an own photo to the answer, on a phone too', async () => {
  for (const viewport of [{ width: 820, height: 1180 }, { width: 390, height: 844 }]) {
    const { page, errors, close } = await visit({ viewport, hasTouch: true });
    // One: the photo.
    await openPhoto(page, (await demoCase()).photo);
    await page.locator('.guide-note').waitFor({ state: 'attached' });
    await settled(page);
    // Two: which one is the restoration, asked where one stands out, else said by a tap on it.
    const yes = page.getByRole('button', { name: 'Yes', exact: true });
    if (await yes.isVisible()) await yes.tap();
    else {
      await page.getByRole('group', { name: 'Outlines' }).getByRole('button', { name: 'Tooth f', exact: true }).evaluate((e) => (e as HTMLElement).click());
      await page.locator('.selection-bar').getByRole('button', { name: 'Restoration' }).tap();
    }
    await settled(page);
    // Three, on a phone: from the photo to its reading.
    if (viewport.width < 640) await page.locator('.modes').getByRole('button', { name: 'Reading' }).tap();
    await page.locator('.third .difference[data-delta-e]').first().waitFor();
    expect(await page.locator('.third .difference[data-delta-e]').count()).toBe(3);
    expect(errors).toEqual([]);
    await close();
  }
});

it('opens each depth by one tap, and closes it again; folded, nobody gets into it', async () => {
  const { page, errors, close } = await visit();
  await openFolded(page);
  const heads = page.locator('.depth > h2 > button');
  expect(await heads.count()).toBeGreaterThanOrEqual(7);
  for (const head of await heads.all()) {
    const inside = page.locator(`#${await head.getAttribute('aria-controls')}`);
    expect([await head.getAttribute('aria-expanded'), await inside.evaluate((e) => getComputedStyle(e).visibility)]).toEqual(['false', 'hidden']);
    await head.click();
    expect([await head.getAttribute('aria-expanded'), await inside.evaluate((e) => getComputedStyle(e).visibility)]).toEqual(['true', 'visible']);
    await head.click();
    expect(await head.getAttribute('aria-expanded')).toBe('false');
    expect((await inside.boundingBox())!.height).toBe(0);
  }
  // On paper all of it stands there.
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.numbers table').isVisible()).toBe(true);
  expect((await page.locator('.lane-row').first().boundingBox())!.height).toBeGreaterThan(20);
  expect(errors).toEqual([]);
  await close();
});

it('prints the photo with its outlines where they are', async () => {
  const { page, errors, close } = await visit();
  await openFolded(page);
  const { scene, width } = await demoCase();
  const brightest = (points: readonly (readonly [number, number])[]) =>
    page.locator('.printed-photo canvas').evaluate((canvas, { points, width }) => {
      const { width: wide } = canvas as HTMLCanvasElement;
      const near = ([x, y]: readonly [number, number]) => (canvas as HTMLCanvasElement).getContext('2d')!.getImageData(((x + 0.5) * wide) / width - 1, ((y + 0.5) * wide) / width - 1, 3, 3).data;
      return points.map((p) => Math.max(...near(p).filter((_, i) => i % 4 === 2)));
    }, { points, width });
  const points = [scene.card!, ...scene.regions].flatMap(({ outline }) => [outline[0]!, outline[Math.floor(outline.length / 2)]!]);
  // Nothing is copied before there is paper.
  expect(Math.max(...(await brightest(points)))).toBe(0);
  await page.emulateMedia({ media: 'print' });
  await expect.poll(async () => Math.min(...(await brightest(points)))).toBeGreaterThan(215);
  expect(errors).toEqual([]);
  await close();
});

it.each(Object.entries(SIZES))('says what to mind where the decision is taken (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport });
  await openFolded(page);
  const text = await page.locator('.decide').innerText();
  for (const word of ['dried', 'wet', 'must not touch tissue', 'barrier film', 'display', 'clinician']) expect(text).toContain(word);
  // It stands before the depth, not at the foot of the page.
  const [decide, depth] = [(await page.locator('.decide').boundingBox())!, (await page.locator('.depth').first().boundingBox())!];
  expect(decide.y).toBeLessThan(depth.y);
  await close();
});

it('follows a drag in what is folded once all is at rest', async () => {
  const { page, errors, close } = await visit();
  await openFolded(page);
  const { scene, inside, width } = await demoCase();
  const id = scene.regions.find((r) => r.kind === 'tooth')!.id;
  const pixels = () => page.locator(`.numbers tbody[data-region="${id}"] [data-number=pixels]`).first().textContent();
  const before = await pixels();
  const box = (await page.locator('canvas.photo').boundingBox())!;
  const [x, y] = inside(id);
  await page.mouse.click(box.x + (x * box.width) / width, box.y + (y * box.width) / width);
  await page.locator('.selection-bar').waitFor();
  await page.locator('.handle.move').focus();
  await page.keyboard.press('Shift+ArrowUp');
  await expect.poll(pixels).not.toBe(before);
  expect(errors).toEqual([]);
  await close();
});

/** The demo's photo as a careless camera would have taken it. */
async function spoiled(page: Page, filter: string): Promise<Buffer> {
  const bytes = await page.evaluate(
    async ({ url, filter }) => {
      const bitmap = await createImageBitmap(await (await fetch(url)).blob());
      const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
      const context = canvas.getContext('2d')!;
      context.filter = filter;
      context.drawImage(bitmap, 0, 0);
      return [...new Uint8Array(await (await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.92 })).arrayBuffer())];
    },
    { url: './demo/demo.jpg', filter },
  );
  return Buffer.from(bytes);
}

it.each(['blur(14px)', 'brightness(2.4)'])('says first that a photo has to be taken again, asks nothing about it, and shows no number (%s)', async (filter) => {
  const { page, errors, close } = await visit();
  await openPhoto(page, { name: 'careless.jpg', mimeType: 'image/jpeg', buffer: await spoiled(page, filter) });
  // Before it was looked at nothing is said in its favour.
  await page.locator('#reading').waitFor();
  expect(await page.locator('.checks .fine').count()).toBe(0);
  await page.locator('.check.retake').first().waitFor();
  await settled(page);
  // One reason; what follows from it is folded.
  expect(await page.locator('.checks > ul > .check').count()).toBe(1);
  expect(await page.getByText('Is Tooth').count()).toBe(0);
  expect(await page.getByText('Which tabs are these?').count()).toBe(0);
  expect(await page.locator('.reason').count()).toBe(1);
  expect(await page.locator('.third').count()).toBe(0);
  await page.locator('.depth.retake > h2 > button').click();
  expect(await page.locator('.retake-request textarea').inputValue()).toContain('careless.jpg');
  expect(errors).toEqual([]);
  await close();
});
