/**
 * How the page feels in real Chromium: first paint, usable and every part loaded with a cold cache;
 * the longest task of the main thread while a 12-megapixel photo is opened, searched and read, and
 * while a handle of the demo is dragged. Medians and worst of several fresh browsers. TABSIDE_URL,
 * TABSIDE_CHROMIUM and TABSIDE_BENCH_PHOTO come from `cargo xtask bench`.
 */
import { chromium } from 'playwright-core';
import { CHROMIUM_ARGS, executablePath, figure, needed } from './figure.mjs';

const ROUNDS = 5;
const DRAG_STEPS = 90;
/** Shorter than this a task is not told of; the aim is that none is longer. */
const LONG_MS = 50;
const [url, photo] = needed('TABSIDE_URL', 'TABSIDE_BENCH_PHOTO');

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
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGS });
  const page = await browser.newPage({ viewport: { width: 1180, height: 820 } });
  rounds.push({ ...(await load(page)), reading: await read(page), dragging: await drag(page) });
  await browser.close();
}

const of = (key) => rounds.map((r) => r[key]);
const group = 'The page in Chromium, cold cache, fresh browsers';
figure({ group, measure: 'first paint', unit: 'ms', values: of('paint'), target: 1000 });
figure({ group, measure: 'cold start → usable: a photo can be opened', unit: 'ms', values: of('usable'), target: 700 });
for (const [key, what] of [['loading', 'loading the page'], ['reading', 'a photo is opened, searched, read'], ['dragging', 'a handle is dragged']]) {
  const tasks = of(key).flat();
  const longest = tasks.length ? `longest ${Math.max(...tasks)} ms; ` : '';
  figure({ group, measure: `tasks of the main thread over ${LONG_MS} ms while ${what}`, unit: '', value: tasks.length, target: 0, note: `${longest}all of ${ROUNDS} browsers` });
}
