/**
 * How the page feels in real Chromium: first paint, usable and every part loaded with a cold cache;
 * the longest task of the main thread while a 12-megapixel photo is opened, searched and read, and
 * while a handle of the demo is dragged. Medians and worst of several fresh browsers. The same
 * environment as run.mjs; without TABSIDE_BENCH_PHOTO the demo's photo is opened.
 */
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const ROUNDS = 5;
const DRAG_STEPS = 90;
/** Shorter than this a task is not told of; the aim is that none is longer. */
const LONG_MS = 50;
const { TABSIDE_URL: url, TABSIDE_CHROMIUM: executablePath } = process.env;
if (!url) throw new Error('TABSIDE_URL must be set.');
const photo = process.env.TABSIDE_BENCH_PHOTO ?? fileURLToPath(new URL('../../fixtures/demo/demo.jpg', import.meta.url));
const args = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

/** Notes tasks from here on. */
const watch = () => {
  window.longTasks = [];
  new PerformanceObserver((list) => window.longTasks.push(...list.getEntries().map((e) => Math.round(e.duration)))).observe({ type: 'longtask', buffered: true });
};
const tasksOf = (page) => page.evaluate(() => window.longTasks.splice(0));

async function load(page) {
  await page.addInitScript(watch);
  await page.goto(url, { waitUntil: 'commit' });
  await page.getByRole('button', { name: 'Open a photo' }).waitFor();
  // Usable: the start can be pressed and the program has answered (the shade guide comes from it).
  const usable = await page.evaluate(() => performance.now());
  await page.waitForLoadState('networkidle');
  const paint = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN);
  return { paint, usable, loading: await tasksOf(page) };
}

async function read(page) {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Open a photo' }).click()]);
  await tasksOf(page);
  await chooser.setFiles(photo);
  await page.locator('.guide-note').waitFor({ state: 'attached' });
  await page.locator('#reading[aria-busy=false]').waitFor({ state: 'attached' });
  await page.waitForTimeout(600);
  return tasksOf(page);
}

async function drag(page) {
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.locator('#menu-list').getByRole('button', { name: 'Demo case' }).click();
  await page.locator('.of-demo').waitFor();
  await page.locator('#reading[aria-busy=false]').waitFor({ state: 'attached' });
  await page.waitForTimeout(500);
  await page.locator('.outline').nth(1).click({ force: true });
  await page.locator('.selection-bar').getByRole('button', { name: /Zoom/ }).click();
  const handle = page.locator('.handle.point').nth(2);
  await handle.waitFor();
  await page.waitForTimeout(800);
  await tasksOf(page);
  const box = await handle.boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  for (let i = 0; i < DRAG_STEPS; i++) {
    await page.mouse.move(box.x + box.width / 2 + 8 * Math.sin(i / 9), box.y + box.height / 2 + 6 * Math.cos(i / 7));
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
  await page.waitForTimeout(400);
  return tasksOf(page);
}

const rounds = [];
for (let i = 0; i < ROUNDS; i++) {
  const browser = await chromium.launch({ executablePath: executablePath ?? '/usr/bin/chromium', args });
  const page = await browser.newPage({ viewport: { width: 1180, height: 820 } });
  rounds.push({ ...(await load(page)), reading: await read(page), dragging: await drag(page) });
  await browser.close();
}

const sorted = (key) => rounds.map((r) => r[key]).sort((a, b) => a - b);
const median = (key) => sorted(key)[Math.floor(ROUNDS / 2)];
const worst = (key) => Math.max(0, ...rounds.flatMap((r) => r[key]));
const count = (key) => rounds.flatMap((r) => r[key]).length;
const ms = (v) => `${v.toFixed(0)} ms`.padStart(8);
console.log(`The page in Chromium, cold cache, ${ROUNDS} fresh browsers`);
console.log(`  first paint                               ${ms(median('paint'))}   slowest ${ms(sorted('paint').at(-1))} (target ≤ 1000 ms)`);
console.log(`  usable: a photo can be opened             ${ms(median('usable'))}   slowest ${ms(sorted('usable').at(-1))} (target ≤ 2000 ms)`);
for (const [key, what] of [['loading', 'loading the page'], ['reading', 'a photo is opened, searched, read'], ['dragging', 'a handle is dragged']]) {
  const longest = worst(key);
  console.log(`  tasks over ${LONG_MS} ms while ${what.padEnd(34)} ${String(count(key)).padStart(3)} in ${ROUNDS} rounds${longest ? `, longest ${longest} ms` : ''} (target none)`);
}
