/** The device's clock is set back a day and ahead a year, while the page is open and between two visits. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { menu, openDepths } from './desk';
import { kept, nameCase, rowOf, showCases, shows, stored, writeNote } from './keeping_case';
import { openSmall } from './faults_small';

beforeAll(openBrowser);
afterAll(closeBrowser);

const SLOW = { timeout: 10_000 };
const DAY = 86_400_000;
const YEAR = 365 * DAY;

/** Its system clock is off by what the window is told; its timers go as ever. */
async function ownClock(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const System = Date;
    const off = () => Number(sessionStorage.getItem('faults.clock') ?? 0);
    window.Date = new Proxy(System, {
      construct: (_, given) => (given.length ? new System(...(given as [number])) : new System(System.now() + off())),
      get: (of, key) => (key === 'now' ? () => System.now() + off() : Reflect.get(of, key)),
    });
  });
  await page.reload();
}
const setClock = (page: Page, off: number): Promise<void> => page.evaluate((off) => sessionStorage.setItem('faults.clock', String(off)), off);

const seconds = async (page: Page): Promise<number> => (await page.getByRole('timer').innerText()).split(':').reduce((sum, part) => 60 * sum + Number(part), 0);

it('the drying clock never goes back', async () => {
  const { page, errors, close } = await visit();
  await ownClock(page);
  await page.getByRole('button', { name: 'Lips retracted' }).click();
  await expect.poll(() => seconds(page), SLOW).toBeGreaterThanOrEqual(2);
  await setClock(page, -DAY);
  await expect.poll(() => seconds(page), SLOW).toBeGreaterThanOrEqual(4);
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  expect(await seconds(page)).toBeGreaterThanOrEqual(4);
  // Ahead it counts what a sleeping device would have slept, and warns.
  await page.getByRole('button', { name: 'Reset', exact: true }).click();
  await page.getByRole('button', { name: 'Lips retracted' }).click();
  await setClock(page, YEAR);
  await page.getByRole('status').filter({ hasText: 'teeth get lighter as they dry' }).waitFor();
  await setClock(page, 0);
  await page.waitForTimeout(2200);
  expect(await seconds(page)).toBeGreaterThanOrEqual(2);
  expect(await page.getByRole('timer').innerText()).not.toContain('-');
  expect(errors).toEqual([]);
  await close();
});

it('loses no case and no stain, whatever the clock says', async () => {
  const { page, errors, close } = await visit();
  await ownClock(page);
  const labels: string[] = [];
  for (const [label, off] of [['Now', 0], ['Ahead', YEAR], ['Back', -DAY], ['Again', 0]] as const) {
    await setClock(page, off);
    await openSmall(page, `${label}.jpg`);
    await kept(page, 1);
    await nameCase(page, label);
    labels.push(label);
    await openDepths(page);
    await writeNote(page, label);
    await expect.poll(async () => (await stored(page, 'docs')).flatMap(({ doc }) => doc.photos.map((p: { notes: { text: string }[] }) => p.notes[0]?.text)).sort(), SLOW).toEqual([...labels].sort());
    await page.reload();
    await shows(page, `${label}.jpg`);
    await menu(page, 'New case');
    await page.getByRole('button', { name: 'Open a photo' }).waitFor();
  }
  await page.waitForTimeout(500);
  for (const head of await stored(page, 'cases')) expect([head.label, Date.parse(head.changed) >= Date.parse(head.created)]).toEqual([head.label, true]);
  // Between two visits, too.
  for (const off of [YEAR, -DAY]) {
    await setClock(page, off);
    await page.reload();
    await showCases(page);
    for (const label of labels) expect([label, await rowOf(page, label).count()]).toEqual([label, 1]);
    await page.keyboard.press('Escape');
  }
  expect(errors).toEqual([]);
  await close();
});

it('keeps stains that are written after the clock was set back', async () => {
  const { page, errors, close } = await visit();
  await ownClock(page);
  const text = () => page.evaluate(() => localStorage.getItem('tabside.stains.1') ?? '');
  const name = page.getByLabel('Stain (name on the jar)');
  for (const [n, off] of [[0, YEAR], [1, 0], [2, -DAY]] as const) {
    await setClock(page, off);
    await page.reload();
    await page.getByRole('button', { name: 'My swatches' }).click();
    const add = page.getByRole('button', { name: 'Add a swatch' });
    await add.or(name).first().waitFor();
    if (!(await name.isVisible())) await add.click();
    await name.fill(`Stain ${n}`);
    await expect.poll(text, SLOW).toContain(`Stain ${n}`);
    await expect.poll(async () => (await stored(page, 'desk')).find(({ key }) => key === 'stains')?.value.text ?? '', SLOW).toContain(`Stain ${n}`);
  }
  // The browser's other storage is lost, as after a hard end: the database has what came last.
  await page.evaluate(() => localStorage.removeItem('tabside.stains.1'));
  await page.reload();
  await expect.poll(text, SLOW).toContain('Stain 2');
  expect(errors).toEqual([]);
  await close();
});
