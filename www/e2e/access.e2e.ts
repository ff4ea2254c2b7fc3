import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { onScreen, openDemo } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

async function complaints(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { violations } = await (window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }).axe.run();
    return violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.html.slice(0, 120)}`));
  });
}

const SIZES = { wide: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };

it.each(Object.entries(SIZES))('axe finds nothing to object to (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  expect(await complaints(page)).toEqual([]);
  await openDemo(page);
  expect(await complaints(page)).toEqual([]);
  if (viewport.width < 640) await page.getByRole('button', { name: 'Photo', exact: true }).first().click();
  const demo = await demoCase();
  await page.mouse.click(...(await onScreen(page, demo.inside(demo.scene.regions[0]!.id), demo.width)));
  await page.locator('.selection-bar').getByRole('button', { name: 'By numbers' }).click();
  await page.locator('.point-table').waitFor();
  await page.getByRole('button', { name: 'More' }).click();
  expect(await complaints(page)).toEqual([]);
  await close();
});

it.each([
  [1180, 820],
  [820, 1180],
  [390, 844],
  [1440, 900],
])('fits %i × %i: nothing sticks out and everything to press is large enough', async (width, height) => {
  const { page, close } = await visit({ viewport: { width, height } });
  for (const step of ['start', 'demo'] as const) {
    if (step === 'demo') await openDemo(page);
    const { overflow, small } = await page.evaluate(() => {
      const shown = (e: Element) => (e as HTMLElement).checkVisibility();
      const small = [...document.querySelectorAll('button, select, summary, input:not([type=radio])')]
        .filter(shown)
        .map((e) => ({ e, r: e.getBoundingClientRect() }))
        .filter(({ r }) => r.height < 43.5 || r.width < 43.5)
        .map(({ e, r }) => `${e.textContent} ${r.width}×${r.height}`);
      return { overflow: document.documentElement.scrollWidth - window.innerWidth, small };
    });
    expect([step, overflow <= 0, small]).toEqual([step, true, []]);
  }
  await close();
});
