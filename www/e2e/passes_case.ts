/** What tests of passes, practice and evenness do again and again. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import type { Scene } from '../src/engine/types';
import * as axe from './axe';
import { fixture, menu, openPhoto, pick } from './desk';

/** What axe objects to, and what sticks out or is too small to press. */
export async function complaints(page: Page): Promise<string[]> {
  const objections = await axe.complaints(page);
  const rest = await page.evaluate(() => {
    const small = [...document.querySelectorAll('button, select, summary, input:not([type=radio]):not([type=checkbox])')]
      .filter((e) => (e as HTMLElement).checkVisibility())
      .map((e) => ({ e, r: e.getBoundingClientRect() }))
      .filter(({ r }) => r.height < 43.5 || r.width < 43.5)
      .map(({ e, r }) => `small: ${e.textContent} ${r.width}×${r.height}`);
    return document.documentElement.scrollWidth > innerWidth ? [...small, 'sticks out'] : small;
  });
  return [...objections, ...rest];
}

export const showMode = (page: Page, name: string): Promise<void> => page.locator('.modes').getByRole('button', { name, exact: true }).click();

/** What is left of the difference, third by third, after each pass. */
export const leftOf = (page: Page): Promise<number[]> => page.locator('.pass-table [data-left]').evaluateAll((cells) => cells.map((c) => Number((c as HTMLElement).dataset['left'])));

export async function useDemoStains(page: Page): Promise<void> {
  await showMode(page, 'Swatches');
  await page.getByRole('button', { name: 'Use demo stains' }).click();
  await page.getByText('Demo stains: invented values').first().waitFor();
}

export async function beginWork(page: Page): Promise<void> {
  await useDemoStains(page);
  await showMode(page, 'Plan');
  await page.getByRole('button', { name: 'Begin this work' }).click();
  await page.getByText('Work at hand').first().waitFor();
}

export const sceneOf = (path: string): Scene => (JSON.parse(readFileSync(fixture(`${path}.truth.json`), 'utf8')) as { scene: Scene }).scene;

/** Another outline of the scene in the place of the restoration, which is left out. */
export const sceneWith = (scene: Scene, id: string): Scene => ({
  ...scene,
  regions: scene.regions.flatMap((r) => (r.kind === 'restoration' ? [] : r.id === id ? [{ ...r, kind: 'restoration' as const, name: '21' }] : [r])),
});

export async function openScene(page: Page, scene: Scene): Promise<void> {
  await pick(page, () => menu(page, 'Open a saved scene'), { name: 'scene.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(scene)) });
}

/** A photo of the fixtures with its outlines; under a name that the open one has not, and another file by its bytes. */
export async function openCase(page: Page, path: string, scene: Scene, name = `${path.split('/').at(-1)}.jpg`): Promise<void> {
  const file = { name, mimeType: 'image/jpeg', buffer: Buffer.concat([readFileSync(fixture(`${path}.jpg`)), Buffer.from(name)]) };
  // On a phone the button is in the menu.
  if (await page.locator('.open-photo').isVisible()) await openPhoto(page, file);
  else await pick(page, () => menu(page, 'Open photo'), file);
  await page.locator('.file-name', { hasText: name }).waitFor({ state: 'attached' });
  await openScene(page, scene);
}

export const SIZES = { wide: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };
