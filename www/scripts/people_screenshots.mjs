/** The laboratory's tray and comparison, the patient's screen, and the page in other clothes. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const fixture = (path) => fileURLToPath(new URL(`../../fixtures/${path}`, import.meta.url));

async function openDemo(browser, url, [width, height], settings) {
  const page = await browser.newPage({ viewport: { width, height } });
  if (settings) await page.addInitScript((text) => localStorage.setItem('tabside.settings.1', text), JSON.stringify(settings));
  await page.goto(url);
  // The offer of the tour is there for the first time only.
  await page.locator('.choice').nth(2).click();
  await page.waitForSelector('.numbers tbody', { state: 'attached', timeout: 20_000 });
  await page.waitForSelector('.picture canvas');
  await page.waitForTimeout(1500);
  return page;
}

async function laboratory(browser, url, folder, size) {
  const page = await openDemo(browser, url, size);
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.locator('.open-photo').click()]);
  const { scene } = JSON.parse(readFileSync(fixture('scenes/other.truth.json'), 'utf8'));
  await chooser.setFiles([
    { name: 'bench.jpg', mimeType: 'image/jpeg', buffer: readFileSync(fixture('scenes/other.jpg')) },
    { name: 'bench.scene.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(scene)) },
  ]);
  await page.waitForSelector('.compare-grid', { timeout: 60_000 });
  await page.waitForTimeout(3000);
  await page.screenshot({ path: `${folder}/tray.png` });
  await page.locator('.compare-grid').evaluate((e) => e.scrollIntoView({ block: 'center' }));
  await page.waitForTimeout(500);
  await page.screenshot({ path: `${folder}/compare.png` });
  const ask = page.getByRole('button', { name: /^Ask for a new photo/ }).first();
  if (await ask.count()) {
    await ask.click();
    await page.locator('.retake-request').first().evaluate((e) => e.scrollIntoView({ block: 'center' }));
    await page.screenshot({ path: `${folder}/retake.png` });
  }
  await page.close();
}

async function patient(browser, url, folder, sizes) {
  for (const name of ['tablet', 'portrait', 'phone']) {
    const page = await openDemo(browser, url, sizes[name]);
    await page.locator('.next-bar').getByRole('button', { name: 'Show the patient' }).click();
    await page.locator('.patient-pair canvas').nth(1).waitFor();
    await page.getByRole('button', { name: 'Hand it over' }).click();
    await page.waitForTimeout(400);
    await page.screenshot({ path: `${folder}/patient-${name}.png` });
    if (name === 'tablet') {
      await page.getByRole('button', { name: 'Brightness only' }).click();
      await page.waitForTimeout(300);
      await page.screenshot({ path: `${folder}/patient-grey.png` });
    }
    await page.close();
  }
}

async function depths(browser, url, folder, size) {
  const page = await openDemo(browser, url, size);
  await page.getByRole('switch', { name: 'Where it differs' }).click();
  await page.locator('canvas.over.map').waitFor();
  await page.waitForTimeout(500);
  await page.locator('.axis-sheet').evaluate((e) => e.scrollIntoView({ block: 'start' }));
  await page.screenshot({ path: `${folder}/difference-map.png` });
  for (const name of ['tabs', 'tabs-check']) await page.locator(`.depth.${name} > h2 > button`).click();
  await page.locator('.depth.tabs').evaluate((e) => e.scrollIntoView({ block: 'start' }));
  await page.waitForTimeout(700);
  await page.screenshot({ path: `${folder}/depths.png` });
  await page.locator('.column-buttons').evaluate((e) => e.scrollIntoView({ block: 'start' }));
  await page.locator('[data-stop=value]').click();
  await page.waitForTimeout(700);
  await page.screenshot({ path: `${folder}/curves.png` });
  await page.close();
}

async function clothes(browser, url, folder, sizes) {
  for (const [name, settings, size] of [['light', { surround: 'light' }, sizes.tablet], ['german', { language: 'de' }, sizes.tablet], ['spanish', { language: 'es' }, sizes.portrait]]) {
    const page = await openDemo(browser, url, size, settings);
    await page.screenshot({ path: `${folder}/${name}.png` });
    await page.close();
  }
  const page = await openDemo(browser, url, sizes.tablet);
  await page.keyboard.press('?');
  await page.locator('dialog').waitFor();
  await page.waitForTimeout(300);
  await page.screenshot({ path: `${folder}/keys.png` });
  await page.close();
}

export async function peopleScreenshots(browser, url, folder, sizes) {
  await laboratory(browser, url, folder, sizes.desktop);
  await patient(browser, url, folder, sizes);
  await depths(browser, url, folder, sizes.tablet);
  await clothes(browser, url, folder, sizes);
}
