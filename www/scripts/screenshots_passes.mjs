/**
 * Takes the pictures of passes, second look, practice and evenness: with TABSIDE_URL set to a served
 * page. Four go to fixtures/screenshots; all of them, in every size, to a folder that is given. The
 * demo photo stands in for the painted and the fired one, with another outline as the restoration;
 * the other scene for the photo of a practice result and for one of another target.
 */
import { mkdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const url = process.env.TABSIDE_URL;
if (!url) throw new Error('TABSIDE_URL must be the address of the served page.');
const all = process.argv[2] !== undefined;
const folder = process.argv[2] ?? fileURLToPath(new URL('../../fixtures/screenshots', import.meta.url));
mkdirSync(folder, { recursive: true });

const demo = (name) => fileURLToPath(new URL(`../../fixtures/demo/${name}`, import.meta.url));
const { scene } = JSON.parse(readFileSync(demo('demo.truth.json'), 'utf8'));
const other = (name) => fileURLToPath(new URL(`../../fixtures/scenes/${name}`, import.meta.url));
const { scene: otherScene } = JSON.parse(readFileSync(other('other.truth.json'), 'utf8'));

/** The demo's scene with a tab in the place of the crown. */
const sceneWith = (tab) => ({
  ...scene,
  regions: scene.regions.flatMap((r) => (r.kind === 'restoration' ? [] : r.name === tab ? [{ ...r, kind: 'restoration', name: '21' }] : [r])),
});

const SIZES = { tablet: [1180, 820], ...(all && { portrait: [820, 1180], phone: [390, 844] }) };
const KEPT = ['evenness', 'unfired', 'passes', 'practice-score'];
const browser = await chromium.launch({
  executablePath: process.env.TABSIDE_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});

async function open(size) {
  const page = await browser.newPage({ viewport: { width: size[0], height: size[1] } });
  page.on('filechooser', () => {});
  page.on('pageerror', (error) => console.error(error.message));
  await page.goto(url);
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await page.waitForSelector('.numbers', { state: 'attached', timeout: 30_000 });
  await page.waitForTimeout(1200);
  return page;
}

const mode = (page, name) => page.locator('.modes').getByRole('button', { name, exact: true }).click();

async function openScene(page, next) {
  await page.getByRole('button', { name: 'More' }).click();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.locator('#menu-list').getByRole('button', { name: 'Open a saved scene' }).click()]);
  await chooser.setFiles({ name: 'scene.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(next)) });
  await page.waitForTimeout(900);
}

/** The other photo with its outlines. On a phone the button is in the menu. */
async function openOther(page) {
  const direct = page.locator('.open-photo');
  const inMenu = page.locator('#menu-list').getByRole('button', { name: 'Open photo' });
  if (!(await direct.isVisible())) await page.getByRole('button', { name: 'More' }).click();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), ((await direct.isVisible()) ? direct : inMenu).click()]);
  await chooser.setFiles(other('other.jpg'));
  await page.locator('.file-name', { hasText: 'other.jpg' }).waitFor({ state: 'attached' });
  await openScene(page, otherScene);
}

async function begin(page) {
  await mode(page, 'Swatches');
  await page.getByRole('button', { name: 'Use demo stains' }).click();
  await page.waitForTimeout(600);
  await mode(page, 'Plan');
  await page.getByRole('button', { name: 'Begin this work' }).click();
}

const see = async (page, selector) => {
  const found = page.locator(selector).first();
  await found.evaluate((e) => e.scrollIntoView({ block: 'start' }));
  await page.waitForTimeout(300);
};

for (const [name, size] of Object.entries(SIZES)) {
  const shot = async (page, what) => {
    if (all) await page.screenshot({ path: `${folder}/${what}-${name}.png` });
    else if (KEPT.includes(what)) await page.screenshot({ path: `${folder}/${what}.png` });
  };

  const first = await open(size);
  if (name === 'phone') await mode(first, 'Reading');
  await see(first, '.axis-sheet');
  await shot(first, 'evenness-sheet');
  await first.locator('.depth.evenness > h2 > button').click();
  await see(first, '.depth.evenness');
  await shot(first, 'evenness-table');
  await first.getByRole('switch', { name: 'Where it is uneven' }).click();
  await first.waitForTimeout(900);
  await shot(first, 'evenness');
  await first.close();

  const page = await open(size);
  await begin(page);
  await see(page, '.unfired');
  await shot(page, 'passes-before');
  await openScene(page, sceneWith('C1'));
  await page.getByRole('button', { name: 'This photo shows it painted, not fired' }).click();
  await page.locator('.hand').waitFor();
  await see(page, '.unfired');
  await shot(page, 'unfired');
  await openScene(page, sceneWith('A2'));
  await see(page, '.passes');
  await shot(page, 'passes-ready');
  await page.getByRole('button', { name: 'This photo shows the fired result' }).click();
  await page.locator('.go').waitFor();
  await see(page, '.passes');
  await shot(page, 'passes');
  await see(page, '.kept-pass');
  await shot(page, 'passes-history');
  await see(page, '.work-head');
  await shot(page, 'passes-fired');
  await page.reload();
  await page.waitForTimeout(800);
  await shot(page, 'work-waiting');
  await page.close();

  const wrong = await open(size);
  await begin(wrong);
  await openOther(wrong);
  if (name === 'phone') await mode(wrong, 'Plan');
  await wrong.getByRole('button', { name: 'This photo shows it painted, not fired' }).click();
  await wrong.locator('.hand').waitFor();
  await see(wrong, '.unfired');
  await shot(wrong, 'unfired-strange');
  await wrong.keyboard.press('Control+z');
  await wrong.getByRole('button', { name: 'This photo shows the fired result' }).click();
  await wrong.locator('.go').waitFor();
  await see(wrong, '.passes');
  await shot(wrong, 'passes-strange');
  await see(wrong, '.kept-pass');
  await shot(wrong, 'passes-strange-history');
  await wrong.close();

  const bench = await open(size);
  await mode(bench, 'Swatches');
  await bench.getByRole('button', { name: 'Use demo stains' }).click();
  await mode(bench, 'Practice');
  await bench.waitForTimeout(500);
  await bench.getByLabel('Who paints').fill('Kim');
  await bench.getByRole('button', { name: 'Plan this exercise' }).click();
  await bench.locator('.result').waitFor();
  await see(bench, '.task');
  await shot(bench, 'practice');
  await see(bench, '.result');
  await shot(bench, 'practice-plan');
  await openOther(bench);
  if (name === 'phone') await mode(bench, 'Practice');
  const tabs = otherScene.regions.filter((r) => r.kind === 'tab').map((r) => `Tab ${r.name}`);
  for (const [who, n] of [['Kim', 3], ['Kim', 2], ['Team 2', 2], ['Kim', 1], ['Team 2', 1]]) {
    await bench.getByLabel('Who paints').fill(who);
    await bench.locator('.result select').last().selectOption({ label: tabs[0] });
    await bench.locator('.result select').first().selectOption({ label: tabs[n] });
    await bench.getByRole('button', { name: 'Score this result' }).click();
    await bench.waitForTimeout(250);
  }
  await bench.locator('.score').waitFor();
  await see(bench, '.score');
  await shot(bench, 'practice-score');
  await bench.locator('.attempts summary').click();
  await see(bench, '.attempts');
  await shot(bench, 'practice-curve');
  await bench.close();
}
await browser.close();
