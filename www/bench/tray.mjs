/**
 * Many photos of 12 megapixels dropped at once on the page's tray in Chromium, against one: until all are
 * found and read, and how much memory the programs of the page's workers take meanwhile. No two files
 * are the same. The environment of page.mjs.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { CHROMIUM_ARGS, executablePath, figure, median, needed, notMeasured } from './figure.mjs';

const MANY = 20;
/** Memory is flat when many take no more than a few. */
const FEW = 6;
const ROUNDS = 3;
const PATIENCE_MS = 120_000;
/** What the page fetches and tries beforehand is done. */
const QUIET_MS = 3000;
const GROUP = 'Many photos of 12 MP at once, Chromium';

const [url, photo] = needed('TABSIDE_URL', 'TABSIDE_BENCH_PHOTO');
const folder = mkdtempSync(join(tmpdir(), 'tabside-bench-'));

/** The same picture with a comment of its own (JPEG, ITU-T T.81, B.2.4.5) and another end: no cache knows it. */
function files(count) {
  const bytes = readFileSync(photo);
  return Array.from({ length: count }, (_, i) => {
    const words = Buffer.from(`photo ${i}`);
    const head = Buffer.from([0xff, 0xfe, 0, words.length + 2]);
    const path = join(folder, `photo-${i}.jpg`);
    writeFileSync(path, Buffer.concat([bytes.subarray(0, 2), head, words, bytes.subarray(2)]));
    return path;
  });
}

/** In the page before anything else: what its reading workers answer, and how large they are. */
function overhear() {
  const heard = (window.heard = { read: new Set(), memory: 0, workers: 0, failed: '' });
  const live = new Map();
  const Real = window.Worker;
  let next = 1e9;
  window.Worker = class extends Real {
    constructor(address, options) {
      super(address, options);
      if (!String(address).includes('/main-')) return;
      const asked = new Map();
      const post = super.postMessage.bind(this);
      this.postMessage = (message, ...rest) => {
        asked.set(message.id, message);
        post(message, ...rest);
      };
      live.set(this, { bytes: 0, ask: () => post({ id: next++, call: 'memory', args: [] }) });
      this.addEventListener('message', ({ data }) => {
        if (data.kind === 'phase') return;
        if (data.id >= 1e9) {
          if (data.kind !== 'value') heard.failed = data.error.message;
          else if (live.has(this)) live.get(this).bytes = data.value;
          heard.memory = Math.max(heard.memory, [...live.values()].reduce((sum, { bytes }) => sum + bytes, 0));
          return;
        }
        const { call, args } = asked.get(data.id) ?? {};
        asked.delete(data.id);
        if (call === 'read' && data.kind === 'value' && data.value.readings.length > 0) {
          heard.read.add(`${[...live.keys()].indexOf(this)} ${args[0]}`);
          heard.readAt = performance.now();
        }
      });
      heard.workers = Math.max(heard.workers, live.size);
    }
    terminate() {
      live.delete(this);
      super.terminate();
    }
  };
  setInterval(() => live.forEach(({ ask }) => ask()), 250);
}

async function dropped(paths) {
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGS });
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' });
    await page.addInitScript(overhear);
    await page.goto(url);
    await page.getByRole('button', { name: 'Several photos' }).click();
    await page.waitForTimeout(QUIET_MS);
    await page.evaluate(() => document.body.append(Object.assign(document.createElement('input'), { type: 'file', id: 'bench', multiple: true })));
    await page.setInputFiles('#bench', paths);
    await page.evaluate((count) => {
      // What the browser is asked to tell while it works would slow it down: the page itself notes when.
      const all = () => count === 1 || document.querySelector('.tray-progress')?.textContent.startsWith(`${count} of ${count} `);
      new MutationObserver(() => {
        if (window.heard.read.size >= count && all()) window.heard.done ??= count === 1 ? window.heard.readAt : performance.now();
      }).observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
      const data = new DataTransfer();
      for (const file of document.querySelector('#bench').files) data.items.add(file);
      // The page tries its program on a photo of its own before.
      window.heard.read.clear();
      window.heard.began = performance.now();
      window.dispatchEvent(new DragEvent('drop', { dataTransfer: data }));
    }, paths.length);
    await page.waitForFunction(() => window.heard.done, null, { timeout: PATIENCE_MS, polling: 500 });
    // The last word about memory.
    await page.waitForTimeout(400);
    return await page.evaluate(() => ({ ms: window.heard.done - window.heard.began, memory: window.heard.memory, workers: window.heard.workers, failed: window.heard.failed }));
  } finally {
    await browser.close();
  }
}

try {
  const all = files(MANY);
  const rounds = [];
  for (let i = 0; i < ROUNDS; i++) rounds.push({ one: await dropped(all.slice(0, 1)), few: await dropped(all.slice(0, FEW)), many: await dropped(all) });
  const times = (key) => rounds.map((r) => r[key].ms);
  const workers = Math.max(...rounds.map((r) => r.many.workers));
  figure({ group: GROUP, measure: `${MANY} photos dropped at once → all found and read, ${workers} workers`, unit: 'ms', values: times('many'), reference: { name: 'one photo', value: median(times('one')) }, target: 12 });
  figure({ group: GROUP, measure: `${FEW} photos`, unit: 'ms', values: times('few'), reference: { name: 'one photo', value: median(times('one')) } });
  const failed = rounds.map((r) => r.many.failed).find(Boolean);
  const memory = (key) => rounds.map((r) => r[key].memory / 1e6);
  const measure = `memory of the workers’ programs at its highest, ${MANY} photos`;
  if (failed) notMeasured({ group: GROUP, measure, why: `the page’s worker gives none (${failed})` });
  else {
    figure({ group: GROUP, measure, unit: 'MB', values: memory('many'), reference: { name: `${FEW} photos`, value: median(memory('few')) }, target: 1.05, note: 'flat: many take no more than a few' });
    figure({ group: GROUP, measure: 'the same with one photo', unit: 'MB', values: memory('one') });
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
