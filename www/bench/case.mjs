/**
 * A case with two photos of 12 megapixels: how long saving takes beyond what the browser needs to write
 * as many bytes, and from choosing the file in a fresh browser to the reading of the photo that is looked
 * at, and to the word about the numbers of both. Medians of several fresh browsers. The environment of
 * page.mjs, and TABSIDE_BENCH_SECOND for the other photo.
 */
import { statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { CHROMIUM_ARGS, executablePath, figure, median, needed } from './figure.mjs';

const ROUNDS = 5;
const [url, first, second] = needed('TABSIDE_URL', 'TABSIDE_BENCH_PHOTO', 'TABSIDE_BENCH_SECOND');

async function choose(page, press, files) {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), press()]);
  await chooser.setFiles(files);
}

async function menu(page, item) {
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.locator('#menu-list').getByRole('button', { name: item }).click();
}

/** From a press until the file is whole. */
async function downloaded(page, press) {
  const began = performance.now();
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  const path = await download.path();
  return { ms: performance.now() - began, download, path };
}

/** As many bytes that are there already. */
const bytesAlone = (page, bytes) =>
  downloaded(page, () =>
    page.evaluate((size) => {
      const link = document.createElement('a');
      link.href = URL.createObjectURL(new Blob([new Uint8Array(size)]));
      link.download = 'bytes.bin';
      link.click();
    }, bytes),
  );

async function round(number) {
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGS });
  try {
    const page = await browser.newPage({ viewport: { width: 1180, height: 820 } });
    await page.goto(url);
    await choose(page, () => page.getByRole('button', { name: 'Open a photo' }).click(), [first, second]);
    await page.getByText('2 of 2 photos are read.').waitFor({ timeout: 60_000 });
    await page.waitForTimeout(500);
    await menu(page, 'Save the case as a file');
    const save = await downloaded(page, () => page.getByRole('button', { name: 'Save the file' }).click());
    const file = join(tmpdir(), `tabside-bench-${process.pid}-${number}.tabside`);
    await save.download.saveAs(file);
    const { size } = statSync(file);
    const alone = await bytesAlone(page, size);

    const fresh = await (await browser.newContext({ viewport: { width: 1180, height: 820 } })).newPage();
    await fresh.goto(url);
    await fresh.waitForLoadState('networkidle');
    // What the browser is asked to tell while it works would slow it down: the page itself notes when.
    await fresh.evaluate(() => {
      window.seen = {};
      new MutationObserver(() => {
        const note = (key, is) => is && (window.seen[key] ??= performance.now());
        const reading = document.querySelector('#reading');
        note('reading', reading?.getAttribute('aria-busy') === 'false' && document.querySelector('.sheet, .axis-sheet, .numbers'));
        note('compared', document.querySelector('.opened-file .outcome')?.textContent.includes('The same numbers'));
      }).observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
      document.addEventListener('change', () => (window.began = performance.now()), { capture: true, once: true });
    });
    await choose(fresh, () => menu(fresh, 'Open a case file'), file);
    await fresh.waitForFunction(() => window.seen.compared, null, { timeout: 60_000 });
    const { reading, compared, began } = await fresh.evaluate(() => ({ ...window.seen, began: window.began }));
    return { size, save: save.ms, alone: alone.ms, beyond: save.ms - alone.ms, reading: reading - began, compared: compared - began };
  } finally {
    await browser.close();
  }
}

const rounds = [];
for (let i = 0; i < ROUNDS; i++) rounds.push(await round(i));
const of = (key) => rounds.map((r) => r[key]);
const group = `A case with two photos of 12 MP (${(median(of('size')) / 1e6).toFixed(1)} MB), Chromium, fresh browsers`;
figure({ group, measure: 'saved, beyond what writing as many bytes takes', unit: 'ms', values: of('beyond'), target: 300 });
figure({ group, measure: '· saved in all', unit: 'ms', values: of('save') });
figure({ group, measure: '· as many bytes alone', unit: 'ms', values: of('alone') });
figure({ group, measure: 'chosen in a fresh browser → reading of the photo that is looked at', unit: 'ms', values: of('reading'), target: 1000 });
figure({ group, measure: '→ the numbers of both photos compared', unit: 'ms', values: of('compared') });
