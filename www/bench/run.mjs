/**
 * The page's speed in real Chromium, on a 12-megapixel photo: opening, reading, dragging, against
 * what the browser's own decoder and a full readback cost in the same run. Medians of interleaved
 * rounds. `cargo xtask bench` starts it; TABSIDE_URL, TABSIDE_CHROMIUM, TABSIDE_BENCH_PHOTO and
 * TABSIDE_BENCH_TRUTH come from there.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { chromium } from 'playwright-core';

const ROUNDS = 9;
const DRAGS = 30;
const { TABSIDE_URL: url, TABSIDE_CHROMIUM: executablePath, TABSIDE_BENCH_PHOTO: photo, TABSIDE_BENCH_TRUTH: truth } = process.env;
if (!url || !photo || !truth) throw new Error('TABSIDE_URL, TABSIDE_BENCH_PHOTO and TABSIDE_BENCH_TRUTH must be set.');

const scene = JSON.parse(readFileSync(truth, 'utf8')).scene;
const worker = readdirSync(new URL('../dist/assets', import.meta.url)).find((name) => /^main-.*\.js$/.test(name));
if (!worker) throw new Error('The built page has no worker in dist/assets.');

const browser = await chromium.launch({
  executablePath: executablePath ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const page = await browser.newPage();
await page.goto(url);
await page.evaluate(() => document.body.append(Object.assign(document.createElement('input'), { type: 'file', id: 'bench' })));
await page.setInputFiles('#bench', photo);

const result = await page.evaluate(measure, { scene, worker: `assets/${worker}`, swatches: 'demo/demo.swatches.json', rounds: ROUNDS, drags: DRAGS });
await browser.close();

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const ms = (v) => `${v.toFixed(0)} ms`.padStart(8);
const own = median(result.own);
const reading = median(result.reading);
console.log(`Chromium, ${(result.pixels / 1e6).toFixed(1)} MP JPEG, ${scene.regions.length} regions, medians of ${ROUNDS} interleaved rounds`);
console.log(`  browser's own decode + full readback      ${ms(own)}`);
console.log(`  file chosen → preview → first reading     ${ms(reading)}   ${(reading / own).toFixed(2)} × (target ≤ 2.0)`);
console.log(`    opening (decode, profile, orientation)  ${ms(median(result.open))}`);
console.log(`    preview of 2 MP                         ${ms(median(result.preview))}`);
console.log(`    reading                                 ${ms(median(result.read))}`);
console.log(`  searching: card, tabs, all crowns         ${ms(median(result.find))}   slowest ${ms(Math.max(...result.find))} (target ≤ 150 ms)`);
console.log(`    the first search of a cold worker       ${ms(result.coldFind)}`);
console.log(`  the same in a cold worker                 ${ms(result.cold)}`);
console.log(`  a dragged handle → new readings           ${ms(median(result.drag))}   slowest ${ms(Math.max(...result.drag))} (target ≤ 50 ms)`);
console.log(`  strengths from ${result.swatches} swatches               ${ms(result.fit)}`);
console.log(`  plan for three thirds                     ${ms(median(result.plan))}   slowest ${ms(Math.max(...result.plan))} (target ≤ 30 ms)`);
console.log(`  picture of the plan, 480 px high          ${ms(median(result.picture))}`);
console.log(`  tap → outline                             ${ms(median(result.tap))}`);

/** Runs in the page. */
async function measure({ scene, worker: address, swatches, rounds, drags }) {
  const file = document.querySelector('#bench').files[0];
  const start = () => {
    const worker = new Worker(address, { type: 'module' });
    let next = 1;
    const call = (name, ...args) =>
      new Promise((resolve, reject) => {
        const id = next++;
        const hear = ({ data }) => {
          if (data.id !== id || data.kind === 'phase') return;
          worker.removeEventListener('message', hear);
          if (data.kind === 'value') resolve(data.value);
          else reject(new Error(data.error.message));
        };
        worker.addEventListener('message', hear);
        worker.postMessage({ id, call: name, args });
      });
    return { call, stop: () => worker.terminate() };
  };
  const timed = async (work) => {
    const from = performance.now();
    const value = await work();
    return [performance.now() - from, value];
  };
  const own = async () => {
    const bitmap = await createImageBitmap(file);
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d', { willReadFrequently: true });
    context.drawImage(bitmap, 0, 0);
    return context.getImageData(0, 0, bitmap.width, bitmap.height).data.length / 4;
  };
  const out = { own: [], reading: [], open: [], preview: [], read: [], find: [], drag: [], tap: [], plan: [], picture: [], fit: 0, cold: 0, coldFind: 0, pixels: 0 };
  const job = async ({ call }) => {
    const [open, opened] = await timed(() => call('open', file));
    const [preview] = await timed(() => call('preview', opened.id, 2_000_000));
    const [read] = await timed(() => call('read', opened.id, scene, {}));
    return { open, preview, read, id: opened.id };
  };
  const cold = start();
  const [coldTime, first] = await timed(() => job(cold));
  out.cold = coldTime;
  [out.coldFind] = await timed(() => cold.call('find', first.id));
  cold.stop();

  const warm = start();
  let last = await job(warm);
  for (let i = 0; i < rounds; i++) {
    const [ownTime, pixels] = await timed(own);
    out.own.push(ownTime);
    out.pixels = pixels;
    await warm.call('close', last.id);
    const [all, parts] = await timed(() => job(warm));
    out.reading.push(all);
    for (const part of ['open', 'preview', 'read']) out[part].push(parts[part]);
    last = parts;
    out.find.push((await timed(() => warm.call('find', last.id)))[0]);
  }
  const moved = structuredClone(scene);
  for (let i = 0; i < drags; i++) {
    moved.regions[0].outline[0][0] += 1;
    out.drag.push((await timed(() => warm.call('read', last.id, moved, {})))[0]);
  }
  const region = scene.regions[0];
  const middle = [0, 1].map((k) => (region.cervical[k] + region.incisal[k]) / 2);
  for (let i = 0; i < rounds; i++) out.tap.push((await timed(() => warm.call('outline_choices', last.id, middle)))[0]);
  // Stains: the demo's book; a crown lighter than its target in every third.
  const book = await (await fetch(swatches)).json();
  const zones = ['cervical', 'middle', 'incisal'].map((zone, k) => ({ zone, from: [77.5, 0, 14.5 - k], to: [73 + k / 2, 1.6 - k / 2, 18.5 - 2 * k] }));
  out.swatches = book.swatches.length;
  out.fit = (await timed(() => warm.call('fit_swatches', book)))[0];
  let plan;
  for (let i = 0; i < 5 * rounds; i++) {
    const [time, made] = await timed(() => warm.call('plan', book, { zones }));
    out.plan.push(time);
    plan = made;
  }
  for (let i = 0; i < rounds; i++) out.picture.push((await timed(() => warm.call('planned_picture', last.id, scene, region.id, book, plan.zones, 480)))[0]);
  warm.stop();
  return out;
}
