/**
 * Takes the screenshots that README and DEVELOPERS show: `npm run screenshots` with TABSIDE_URL set
 * to a served page. They go to fixtures/screenshots, or to the folder TABSIDE_SCREENSHOTS.
 */
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { peopleScreenshots } from './people_screenshots.mjs';
import { planScreenshots } from './plan_screenshots.mjs';

const url = process.env.TABSIDE_URL;
if (!url) throw new Error('TABSIDE_URL must be the address of the served page.');
const folder = process.env.TABSIDE_SCREENSHOTS ?? fileURLToPath(new URL('../../fixtures/screenshots', import.meta.url));
mkdirSync(folder, { recursive: true });

const SIZES = { desktop: [1440, 900], tablet: [1180, 820], portrait: [820, 1180], phone: [390, 844] };
const browser = await chromium.launch({
  executablePath: process.env.TABSIDE_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
for (const [name, [width, height]] of Object.entries(SIZES)) {
  const page = await browser.newPage({ viewport: { width, height } });
  await page.goto(url);
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.waitForSelector('.numbers', { state: 'attached', timeout: 20_000 });
  // The straightened pictures follow the numbers.
  await page.waitForTimeout(1500);
  await page.screenshot({ path: `${folder}/${name}.png` });
  await page.close();
}

// A photo just opened: everything outlined before anything was touched; then one of the teeth near.
const page = await browser.newPage({ viewport: { width: SIZES.tablet[0], height: SIZES.tablet[1] } });
await page.goto(url);
const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Open a photo' }).click()]);
await chooser.setFiles(fileURLToPath(new URL('../../fixtures/demo/demo.jpg', import.meta.url)));
await page.waitForSelector('.guide-note', { timeout: 20_000 });
await page.waitForTimeout(1500);
await page.screenshot({ path: `${folder}/found.png` });
const outlines = page.locator('.depth.outlines > h2 > button');
await outlines.click();
await page.getByRole('group', { name: 'Outlines' }).getByRole('button', { name: 'Tooth e', exact: true }).click();
await outlines.click();
await page.locator('.panel').evaluate((e) => (e.scrollTop = 0));
await page.locator('.selection-bar').getByRole('button', { name: 'Zoom in' }).click();
await page.waitForTimeout(300);
await page.screenshot({ path: `${folder}/mending.png` });
await peopleScreenshots(browser, url, folder, SIZES);
await planScreenshots(browser, url, folder, SIZES);
await browser.close();
