/** What axe objects to in the page as it stands, and what cannot be pressed or sticks out. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Of what passes nothing is asked, nor where in the page a thing lies: finding that out takes as long as the rest. */
const ASKED = { resultTypes: ['violations'], selectors: false };

export async function complaints(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async (asked) => {
    const { violations } = await (window as unknown as { axe: { run(asked: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }).axe.run(asked);
    return violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.html.slice(0, 120)}`));
  }, ASKED);
}

/** Whether something sticks out, and what is too small for a finger. */
export const cramped = (page: Page): Promise<{ overflow: boolean; small: string[] }> =>
  page.evaluate(() => {
    const shown = (e: Element) => (e as HTMLElement).checkVisibility();
    const small = [...document.querySelectorAll('button, select, summary, input:not([type=radio])')]
      .filter(shown)
      .map((e) => ({ e, r: e.getBoundingClientRect() }))
      .filter(({ r }) => r.height < 43.5 || r.width < 43.5)
      .map(({ e, r }) => `${e.textContent} ${r.width}×${r.height}`);
    const panel = document.querySelector('.panel');
    const within = document.documentElement.scrollWidth <= window.innerWidth && (!panel || panel.scrollWidth <= panel.clientWidth);
    return { overflow: !within, small };
  });
