/**
 * A case as the page once wrote it, with its work: what users have kept must open in every later page. It was written
 * by this file with TABSIDE_BLESS=1, from the demo; a case of a later form gets a file of its own beside it.
 */
import { existsSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { openCaseFile, saveCase } from './case_save';
import { fixture, numbers, openDemo, openDepths } from './desk';
import { beginWork, leftOf, openCase, sceneOf, sceneWith, showMode } from './passes_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const KEPT = fixture('case/version-1-by-page.tabside');

async function write(): Promise<void> {
  const { page, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  await beginWork(page);
  await openCase(page, 'demo/demo', sceneWith(sceneOf('demo/demo'), 'tab-A2'), 'fired.jpg');
  await showMode(page, 'Plan');
  await page.getByRole('button', { name: 'This photo shows the fired result' }).click();
  await page.locator('.go').waitFor();
  writeFileSync(KEPT, (await saveCase(page, { label: 'Kept', photos: 'None' })).buffer);
  await close();
}

it('opens whole, its work with it', async () => {
  if (process.env['TABSIDE_BLESS'] && !existsSync(KEPT)) await write();
  const { page, errors, close } = await visit();
  await openCaseFile(page, KEPT);
  const strip = page.locator('.opened-file');
  await strip.getByText('Kept, saved').waitFor();
  expect(await strip.innerText()).not.toContain('left out');
  await openDepths(page);
  expect((await numbers(page))['tooth-11']).toMatchObject({ cervical: { l: 74.3, a: 1.9, b: 19.1 }, incisal: { l: 70.9, a: 0.2, b: 14.5 } });
  await showMode(page, 'Plan');
  expect(await page.locator('.work-head').innerText()).toContain('Pass 1, fired.');
  expect((await leftOf(page)).map((delta_e_00) => delta_e_00.toFixed(2))).toEqual(['0.93', '0.86', '3.24']);
  await showMode(page, 'Swatches');
  await page.getByText('Demo stains: invented values').first().waitFor();
  expect(errors).toEqual([]);
  await close();
});
