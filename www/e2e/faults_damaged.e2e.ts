/** A kept case with any part of it damaged: it opens or is told of; the page always stands, and the other case opens. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { chance } from '../scripts/wander/chance.mjs';
import { closeBrowser, openBrowser, visit } from './browser';
import { menu, openDemo } from './desk';
import { damage, stands } from './faults_storage';
import { kept, nameCase, rowOf, showCases, shows, stored } from './keeping_case';
import { beginWork } from './passes_case';
import { openSmall } from './faults_small';

beforeAll(openBrowser);
afterAll(closeBrowser);

type Luck = ReturnType<typeof chance>;
type Node = Record<string, unknown>;

const WRONG: readonly unknown[] = [null, 0, -1, 1e300, '', 'x', true, [], {}, [[]], ['a', 2], { id: {} }, '\u0000', -7.5];

/** Every place of a document: what holds it, and under which key. */
function places(value: unknown, found: [Node, string][] = []): [Node, string][] {
  if (typeof value !== 'object' || value === null) return found;
  for (const key of Object.keys(value)) {
    found.push([value as Node, key]);
    places((value as Node)[key], found);
  }
  return found;
}

/** A copy of which something is wrong, missing or twice as long. Places near the root are as likely as all below them. */
function harmed(doc: unknown, luck: Luck): { doc: Node; what: string } {
  const copy = structuredClone(doc) as Node;
  const depth = (at: [Node, string]) => places(at[0][at[1]]).length;
  const all = places(copy);
  const few = all.filter((at) => depth(at) > 3);
  const [node, key] = luck.oneOf(luck.below(2) === 0 ? few : all);
  const way = luck.below(4);
  if (way === 0) delete node[key];
  else if (way === 1 && Array.isArray(node[key])) node[key] = [...node[key], ...node[key]];
  else node[key] = luck.oneOf(WRONG);
  return { doc: copy, what: `${key} ${way} ${JSON.stringify(node[key])?.slice(0, 40)}` };
}

const SEED = Number(process.env['TABSIDE_SEED'] ?? 5);
const TIMES = Number(process.env['TABSIDE_TIMES'] ?? 10);

/** Opens the damaged case; gives what the page said, and closes the list. */
async function tryOpen(page: Page): Promise<string> {
  if (!(await page.locator('.file-name').count())) await page.getByRole('button', { name: /Cases on this device/ }).click();
  else await showCases(page);
  const open = rowOf(page, 'Harmed').getByRole('button', { name: 'Open Harmed', exact: true });
  if (await open.count()) await open.click();
  await page.locator('.dialog.cases').waitFor({ state: 'detached', timeout: 1500 }).catch(() => page.keyboard.press('Escape'));
  await page.locator('.dialog.cases').waitFor({ state: 'detached' });
  return (await page.locator('.undrawn').count()) ? 'undrawn' : '';
}

it(`stands through ${TIMES} ways of being damaged, and the other case is whole`, { timeout: 240_000 }, async () => {
  const { page, errors, close } = await visit();
  await openSmall(page, 'good.jpg');
  await kept(page, 1);
  await nameCase(page, 'Good');
  await menu(page, 'New case');
  await openDemo(page);
  await beginWork(page);
  await expect.poll(async () => (await stored(page, 'docs')).length).toBe(2);
  await nameCase(page, 'Harmed');
  await page.waitForTimeout(800);
  const { id } = (await stored(page, 'cases')).find(({ label }) => label === 'Harmed');
  const { doc } = (await stored(page, 'docs')).find((one) => one.id === id);
  const bad: string[] = [];
  for (let i = 0; i < TIMES; i++) {
    const { doc: wrong, what } = harmed(doc, chance(SEED, i));
    errors.length = 0;
    await damage(page, [{ store: 'docs', of: 'Harmed', put: { doc: wrong } }]);
    try {
      await stands(page);
      const said = await tryOpen(page);
      await page.waitForTimeout(250);
      await stands(page);
      if (said || errors.length) bad.push(`${i}: ${what}: ${[said, ...errors].join('; ').slice(0, 300)}`);
    } catch (error) {
      bad.push(`${i}: ${what}: ${String(error).slice(0, 200)}; ${errors.join('; ').slice(0, 300)}`);
      await page.evaluate(() => sessionStorage.clear());
    }
  }
  await damage(page, [{ store: 'desk', of: 'last', remove: true }]);
  await page.evaluate(() => sessionStorage.clear());
  await page.reload();
  await page.getByRole('button', { name: /Cases on this device/ }).click();
  await page.getByRole('button', { name: 'Open Good', exact: true }).click();
  await shows(page, 'good.jpg');
  expect(bad).toEqual([]);
  await close();
});
