/**
 * Takes the pictures of cases: saving, opening (the same numbers; without the photo), the list, what is
 * kept where. With TABSIDE_URL set to a served page; they go to fixtures/screenshots. Names are invented.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const url = process.env.TABSIDE_URL;
if (!url) throw new Error('TABSIDE_URL must be the address of the served page.');
const folder = process.argv[2] ?? fileURLToPath(new URL('../../fixtures/screenshots', import.meta.url));
mkdirSync(folder, { recursive: true });
const scratch = mkdtempSync(join(tmpdir(), 'tabside-case-'));
const other = fileURLToPath(new URL('../../fixtures/scenes/other.jpg', import.meta.url));
const browser = await chromium.launch({
  executablePath: process.env.TABSIDE_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});

const TABLET = { width: 1180, height: 820 };
const PHONE = { width: 390, height: 844 };

async function fresh(viewport) {
  const page = await (await browser.newContext({ viewport, acceptDownloads: true, locale: 'en-GB' })).newPage();
  page.on('pageerror', (error) => console.error(error.message));
  await page.goto(url);
  await page.getByRole('button', { name: 'Look at the demo' }).waitFor();
  return page;
}

const shot = (page, name) => page.screenshot({ path: `${folder}/${name}.png` });

async function menu(page, item) {
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.locator('#menu-list').getByRole('button', { name: item }).click();
}

async function choose(page, press, file) {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), press()]);
  await chooser.setFiles(file);
}

async function save(page, label, photos, name) {
  await menu(page, 'Save the case as a file');
  await page.getByLabel('What you call the case').fill(label);
  await page.getByLabel(photos).check();
  if (name === 'whole') await shot(page, 'case-save');
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save the file' }).click()]);
  const path = join(scratch, `${name}.tabside`);
  await download.saveAs(path);
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  return path;
}

async function opened(page, path, outcome) {
  await choose(page, () => menu(page, 'Open a case file'), path);
  await page.locator('.opened-file .outcome', { hasText: outcome }).waitFor({ state: 'attached' });
  await page.waitForTimeout(2500);
}

const dentist = await fresh(TABLET);
await dentist.getByRole('button', { name: 'Look at the demo' }).click();
await dentist.locator('.numbers').waitFor({ state: 'attached' });
await dentist.waitForTimeout(800);
const whole = await save(dentist, '21, shelf 3', 'As the camera wrote them', 'whole');
const bare = await save(dentist, '21, shelf 3', 'None', 'bare');

const lab = await fresh(TABLET);
await opened(lab, whole, 'The same numbers');
await shot(lab, 'case-same');
await choose(lab, () => menu(lab, 'New case').then(() => lab.getByRole('button', { name: 'Open a photo' }).click()), other);
await lab.locator('.guide-note').waitFor({ state: 'attached' });
await lab.waitForTimeout(2500);
await menu(lab, 'Cases on this device');
await lab.waitForTimeout(1000);
await shot(lab, 'cases');

const phone = await fresh(PHONE);
await opened(phone, bare, 'could not be derived again');
await shot(phone, 'case-bare');
await menu(phone, 'What is kept where');
await phone.waitForTimeout(400);
await shot(phone, 'kept-where');
await browser.close();
rmSync(scratch, { recursive: true });
