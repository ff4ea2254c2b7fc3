/**
 * Takes the screenshots that README and DEVELOPERS show: `npm run screenshots` with TABSIDE_URL set
 * to a served page. They go to fixtures/screenshots.
 */
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const url = process.env.TABSIDE_URL;
if (!url) throw new Error('TABSIDE_URL must be the address of the served page.');
const folder = fileURLToPath(new URL('../../fixtures/screenshots', import.meta.url));
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
await browser.close();
