import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { demoCase } from './demo_case';
import { openDepths, found, onScreen, openPhoto, settled } from './desk';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** What the search is made to propose, whatever it found by itself: this is about the page. */
interface Made {
  /** Counted among the teeth from the left. */
  restoration?: number;
  target?: number;
  /** The card as so many steps side by side. */
  steps?: number;
}

async function openWith(page: Page, made: Made): Promise<void> {
  await page.addInitScript((made: Made) => {
    const Real = window.Worker;
    window.Worker = class extends Real {
      override set onmessage(hear: ((event: MessageEvent) => void) | null) {
        super.onmessage = (event: MessageEvent) => {
          const value = (event.data as { value?: { regions?: { kind: string; outline: [number, number][] }[]; card?: { outline: [number, number][]; steps?: unknown }; target?: number; restoration?: number; readings?: unknown } }).value;
          if (value?.regions && !value.readings) {
            const left = (r: { outline: [number, number][] }) => Math.min(...r.outline.map((p) => p[0]));
            const teeth = value.regions.filter((r) => r.kind === 'tooth').sort((a, b) => left(a) - left(b));
            const place = (n: number | undefined) => (n === undefined ? undefined : value.regions!.indexOf(teeth[n]!));
            value.restoration = place(made.restoration)!;
            value.target = place(made.target)!;
            const [xs, ys] = [0, 1].map((i) => value.card!.outline.map((p) => p[i]!)) as [number[], number[]];
            const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
            const n = made.steps ?? 0;
            if (n) value.card!.steps = Array.from({ length: n }, (_, i) => [0, 1, 1, 0].map((c, k) => [x0 + ((i + c) / n) * (x1 - x0), k < 2 ? y0 + 60 : y1 - 60]));
          }
          hear?.(event);
        };
      }
    };
  }, made);
  await page.reload();
  await openPhoto(page, (await demoCase()).photo);
  await found(page);
  await settled(page);
}

const kinds = async (page: Page): Promise<string[]> => {
  await openDepths(page);
  return page.locator('.numbers th[scope=rowgroup]').allInnerTexts();
};
const asks = (page: Page) => page.getByText('Is Tooth f the restoration?');

it('asks whether the restoration is the one; yes gives the comparison with one tap, and undo asks again', async () => {
  const { page, errors, close } = await visit();
  await openWith(page, { restoration: 5, target: 4 });
  await asks(page).waitFor();
  expect((await kinds(page)).some((k) => k.startsWith('Restoration'))).toBe(false);
  expect(await page.locator('.outline.proposed').count()).toBe(1);
  await page.getByRole('button', { name: 'Yes', exact: true }).click();
  await settled(page);
  await page.locator('.third .difference[data-delta-e]').first().waitFor();
  expect((await kinds(page)).some((k) => k.startsWith('Restoration'))).toBe(true);
  await page.getByRole('button', { name: 'Later' }).click();
  await page.getByText('Restoration is compared with Tooth e.').waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await asks(page).waitFor();
  await page.getByRole('button', { name: 'There is none' }).click();
  await asks(page).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Undo' }).click();
  await asks(page).waitFor();

  // Another one: the next tap on a tooth says which, outlined or not.
  await page.getByRole('button', { name: 'Another one' }).click();
  const demo = await demoCase();
  const tooth = demo.scene.regions.find((r) => r.kind === 'tooth')!;
  await page.mouse.click(...(await onScreen(page, demo.inside(tooth.id), demo.width)));
  // What it was to be compared with has become the restoration: the reading takes another tooth.
  await page.getByText(/^Restoration is compared with Tooth [a-df-z]\./).waitFor();
  await settled(page);
  await expect.poll(async () => (await kinds(page)).filter((k) => k.startsWith('Restoration')).length).toBe(1);
  expect(await page.locator('.outline.proposed').count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

it('has the role of a region and what it is compared with in the selection bar, by keyboard too', async () => {
  const { page, errors, close } = await visit();
  await openWith(page, { target: 4 });
  const list = page.getByRole('group', { name: 'Outlines' });
  const bar = page.locator('.selection-bar');
  await list.getByRole('button', { name: 'Tooth f', exact: true }).press('Enter');
  await bar.getByRole('button', { name: 'Restoration' }).press('Enter');
  await list.getByRole('button', { name: 'Tooth d', exact: true }).press('Enter');
  await bar.getByRole('button', { name: 'Compare with this one' }).press('Enter');
  await settled(page);
  await expect.poll(() => page.locator('.picture-head').allInnerTexts()).toEqual([expect.stringMatching(/Tooth\s+d/), expect.stringMatching(/Resto/), expect.stringMatching(/Tab/)]);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => (await page.locator('.picture-head').allInnerTexts())[0]).toMatch(/Tooth\s+e/);
  expect(errors).toEqual([]);
  await close();
});

it('says that the card has steps and takes typed values only', async () => {
  const { page, errors, close } = await visit();
  await openWith(page, { steps: 3 });
  await page.locator('.guide-note', { hasText: 'The card has 3 grey steps' }).waitFor();
  expect(await page.locator('.outline[data-shape^=step]').count()).toBe(0);
  await page.getByRole('group', { name: 'Outlines' }).getByRole('button', { name: 'Grey card' }).click();
  // Which is which is seen in the photo.
  expect(await page.locator('.found-step text').allTextContents()).toEqual(['1', '2', '3']);
  const form = page.locator('.found-steps');
  await form.getByLabel('Step 1, lightest L*').fill('50,1');
  await form.getByRole('button', { name: 'Use these values' }).click();
  await form.getByText('At least two steps need their L*.').waitFor();
  await form.getByLabel('Step 3, darkest L*').fill('49.8');
  await form.getByRole('button', { name: 'Use these values' }).click();
  await expect.poll(() => page.locator('.outline[data-shape^=step]').count()).toBe(2);
  await page.keyboard.press('Control+z');
  await expect.poll(() => page.locator('.outline[data-shape=card]').count()).toBe(1);
  expect(errors).toEqual([]);
  await close();
});
