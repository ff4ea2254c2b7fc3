/** The plan by demo stains in every size, laid over the photo, on paper; and the swatches. */
const A4_PX = { width: 794, height: 1123 };

async function openPlan(page, url) {
  await page.goto(url);
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.waitForSelector('.numbers', { state: 'attached', timeout: 20_000 });
  await page.locator('.modes').getByRole('button', { name: 'Plan', exact: true }).click();
  await page.getByRole('button', { name: 'Use demo stains' }).click();
  await page.waitForSelector('.predicted canvas:last-of-type', { timeout: 20_000 });
  await page.waitForTimeout(1000);
}

export async function planScreenshots(browser, url, folder, sizes) {
  for (const [name, [width, height]] of Object.entries(sizes)) {
    const page = await browser.newPage({ viewport: { width, height } });
    await openPlan(page, url);
    await page.screenshot({ path: `${folder}/plan-${name}.png` });
    if (name === 'tablet') await more(page, folder);
    await page.close();
  }
}

async function more(page, folder) {
  await page.getByLabel('Label (a number').fill('Demo 1');
  await page.locator('.plan-step input').first().check();
  await page.locator('.panel .divider input').fill('50');
  await page.getByRole('switch', { name: 'Show on the photo' }).click();
  await page.waitForSelector('.plan-patch');
  await page.locator('.work-tools').evaluate((e) => e.scrollIntoView({ block: 'start' }));
  await page.waitForTimeout(500);
  await page.screenshot({ path: `${folder}/plan-on-photo.png` });
  await page.locator('.modes').getByRole('button', { name: 'Swatches', exact: true }).click();
  await page.waitForSelector('.strength');
  await page.screenshot({ path: `${folder}/swatches.png` });
  await page.locator('.modes').getByRole('button', { name: 'Plan', exact: true }).click();
  await page.setViewportSize(A4_PX);
  await page.emulateMedia({ media: 'print' });
  await page.screenshot({ path: `${folder}/step-sheet.png` });
}
