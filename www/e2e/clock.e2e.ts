import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { menu, openDemo } from './desk';
import { readFileSync } from 'node:fs';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('counts the drying in the top bar, warns after two minutes, and stores nothing of it', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  await page.clock.install();
  await page.reload();
  await page.getByRole('button', { name: 'Lips retracted' }).click();
  const timer = page.getByRole('timer');
  await page.clock.runFor(61_000);
  await expect.poll(() => timer.innerText()).toMatch(/^1:0[12]$/);
  // It goes on while a photo is opened, and is still there.
  await page.clock.resume();
  await openDemo(page);
  expect(await timer.isVisible()).toBe(true);
  const note = page.getByRole('status').filter({ hasText: 'teeth get lighter as they dry' });
  expect(await note.count()).toBe(0);
  await page.clock.fastForward(70_000);
  await note.waitFor();
  await page.getByText('Sources').click();
  expect(await page.locator('.drying-note li').first().innerText()).toContain('J Dent 2021;105:103560');

  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  const stopped = await timer.innerText();
  await page.clock.fastForward(30_000);
  expect(await timer.innerText()).toBe(stopped);
  const [download] = await Promise.all([page.waitForEvent('download'), menu(page, 'Save scene')]);
  expect(Object.keys(JSON.parse(readFileSync((await download.path())!, 'utf8'))).sort()).toEqual(['card', 'regions']);
  await page.getByRole('button', { name: 'Reset', exact: true }).click();
  expect([await timer.count(), await note.count()]).toEqual([0, 0]);
  expect(await page.getByRole('button', { name: 'Lips retracted' }).isVisible()).toBe(true);
  expect(errors).toEqual([]);
  await close();
});
