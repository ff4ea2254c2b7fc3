/** What was found in a photo that was just opened, and what the tests do with it. */
import type { Locator, Page } from 'playwright-core';
import type { Point } from '../src/engine/types';
import { overlap } from '../src/state/overlap';
import { demoCase } from './demo_case';
import { found, onScreen, openPhoto, outlineOn, settled } from './desk';

export const keysOf = (page: Page): Promise<string[]> => page.locator('.outline').evaluateAll((all) => all.map((e) => (e as SVGElement).dataset['shape']!));
export const bar = (page: Page): Locator => page.locator('.selection-bar');
export const undo = (page: Page): Promise<void> => page.getByRole('button', { name: 'Undo' }).click();

/** The key of the outline that lies on a truth outline, and how well. */
export async function lyingOn(page: Page, truth: readonly Point[], photoWidth: number): Promise<{ key: string; share: number }> {
  const all = await Promise.all((await keysOf(page)).map(async (key) => ({ key, share: overlap(await outlineOn(page, key, photoWidth), truth) })));
  return all.reduce((a, b) => (b.share > a.share ? b : a));
}

/** The demo opened as a plain photo, and one of its things. */
export async function opened(page: Page, kind: 'tooth' | 'tab') {
  const demo = await demoCase();
  await openPhoto(page, demo.photo);
  await found(page);
  await settled(page);
  const region = demo.scene.regions.find((r) => r.kind === kind)!;
  const at = await onScreen(page, demo.inside(region.id), demo.width);
  const { key } = await lyingOn(page, region.outline, demo.width);
  const path = () => page.locator(`.outline[data-shape="${key}"] .line`).getAttribute('d');
  return { demo, region, at, key, path };
}
