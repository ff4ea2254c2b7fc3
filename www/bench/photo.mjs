/**
 * A photo from its file to a plan, in Chromium, Firefox and WebKitGTK (TABSIDE_ENGINES takes some of them),
 * against what the browser's own decoder and a full readback cost in the same round. TABSIDE_BENCH_PHOTOS
 * names the photos as the page's address has them, `what=path,…`; TABSIDE_BENCH_PAGE is the built page.
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, runnerImport } from 'vite';
import { figure, median, needed, notMeasured } from './figure.mjs';

const ROUNDS = 9;
const DRAGS_PER_ROUND = 8;
/** What the page fetches beforehand for use without a network is fetched meanwhile. */
const QUIET_MS = 3500;
const LOOK_AGAIN_MS = 400;
const PATIENCE_MS = 240_000;
const REFERENCE = 'createImageBitmap + full getImageData';

const [url, page, photos] = needed('TABSIDE_URL', 'TABSIDE_BENCH_PAGE', 'TABSIDE_BENCH_PHOTOS');
const names = (process.env.TABSIDE_ENGINES ?? 'chromium,firefox,webkit').split(',');
const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const rest = (ms) => new Promise((done) => setTimeout(done, ms));

const worker = readdirSync(join(page, 'assets')).find((name) => /^main-.*\.js$/.test(name));
if (!worker) throw new Error('The built page has no worker in assets.');

const bundled = await build({
  configFile: false,
  logLevel: 'warn',
  build: { write: false, minify: false, target: 'es2022', lib: { entry: here('in_page.ts'), formats: ['iife'], name: 'tabsideBench' } },
});
const code = bundled[0].output[0].code;

const drivers = {};
for (const [name, path, cls] of [['chromium', 'chromium', 'Chromium'], ['firefox', 'firefox', 'Firefox'], ['webkit', 'webkit', 'WebKit']]) {
  drivers[name] = (await runnerImport(here(`../e2e/engines/${path}.ts`), { configFile: false })).module[cls];
}

/** A function of this text: the drivers send functions as their text. */
const asText = (text) => Object.assign(() => {}, { toString: () => text });

async function measured(driver, photo) {
  await driver.goto(url);
  await rest(QUIET_MS);
  await driver.evaluate(asText(`() => { ${code}; window.tabsideBench = tabsideBench; return true; }`));
  const job = { photo, book: 'demo/demo.swatches.json', worker: `assets/${worker}`, rounds: ROUNDS, dragsPerRound: DRAGS_PER_ROUND };
  await driver.evaluate((job) => (window.tabsideBench.begin(job), true), job);
  for (const last = Date.now() + PATIENCE_MS; Date.now() < last; await rest(LOOK_AGAIN_MS)) {
    const { done, failed } = await driver.evaluate(() => window.tabsideBench.asked());
    if (failed !== undefined) throw new Error(failed);
    if (done) return done;
  }
  throw new Error(`nothing came within ${PATIENCE_MS / 1000} s`);
}

function tell(group, { widthPx, heightPx, first, times, memoryOnce, memoryAfterAll, regions, swatches, draggedPx }) {
  const reference = { name: REFERENCE, value: median(times.own) };
  const line = (measure, key, more) => figure({ group, measure, unit: 'ms', values: times[key], ...more });
  line(`file chosen → first useful picture (open, ${first})`, 'picture', { reference, target: 0.4 });
  line('· of it: open', 'picture open');
  line(`· of it: ${first}`, 'picture first');
  if (times.preview) line('full preview of 2 MP, made behind it', 'preview');
  line(`file chosen → ${regions} regions found → readings, ladders → plan for three thirds`, 'job', { reference, target: 1 });
  for (const part of ['open', 'find', 'read', 'plan']) line(`· of it: ${part}`, `job ${part}`);
  line('search alone: card, tabs, all crowns', 'find', { reference });
  line('first reading alone, all regions', 'read', { reference });
  line(`a handle of a region of ${(draggedPx / 1e6).toFixed(2)} MP is dragged → new readings`, 'drag', { target: 16 });
  line(`strengths from ${swatches} swatches, then the plan`, 'fit and plan', { target: 20 });
  line('· of it: plan alone', 'plan');
  line('picture of the plan, 480 px high', 'plan picture');
  line('tap → outlines', 'tap');
  const rgb = { name: 'decoded RGB8', value: (widthPx * heightPx * 3) / 1e6 };
  for (const [measure, bytes, target] of [['memory of the program, one photo and all that is done with it', memoryOnce, 1.6], [`the same after ${2 * (ROUNDS + 1)} photos, one after another`, memoryAfterAll, 1.6]]) {
    if (typeof bytes === 'number') figure({ group, measure, unit: 'MB', value: bytes / 1e6, reference: rgb, target });
    else notMeasured({ group, measure, target: `≤ ${target} ×`, why: bytes });
  }
}

for (const name of names) {
  let driver;
  let group = name;
  try {
    driver = await drivers[name].open();
    group = `${driver.engine} ${driver.version}`;
    for (const [what, photo] of photos.split(',').map((pair) => pair.split('='))) {
      const full = `${group}: ${what}`;
      try {
        tell(full, await measured(driver, photo));
      } catch (error) {
        notMeasured({ group: full, measure: 'a photo from its file to a plan', why: error.message });
      }
    }
  } catch (error) {
    notMeasured({ group, measure: 'a photo from its file to a plan', why: error.message });
  } finally {
    await driver?.close();
  }
}
