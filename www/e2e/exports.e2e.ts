import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Download, Page } from 'playwright-core';
import { complaints, cramped } from './axe';
import { address, closeBrowser, openBrowser, visit } from './browser';
import { demoCase } from './demo_case';
import { fixture, menu, numbers, openDemo, pick, settled } from './desk';

beforeAll(openBrowser);
afterAll(closeBrowser);

const textOf = async (download: Download): Promise<string> => readFileSync((await download.path())!, 'utf8');

/** One of the ways of the dialog. */
async function saved(page: Page, name: string): Promise<Download> {
  await menu(page, 'More ways to save and print');
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('dialog').getByRole('button', { name }).click()]);
  await page.getByRole('status').filter({ hasText: `saved` }).waitFor();
  expect(await page.getByRole('dialog').count()).toBe(0);
  return download;
}

const file = (name: string, text: string, mimeType = 'text/csv') => ({ name, mimeType, buffer: Buffer.from(text) });
const guideInUse = async (page: Page): Promise<void> => void (await page.locator('.ladder-lane text', { hasText: 'Q7' }).first().waitFor());

it('hands on the reading as JSON and as CGATS, and asks nobody for anything', async () => {
  const { page, requests, errors, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  const json = await saved(page, 'Save the reading as JSON');
  expect(json.suggestedFilename()).toBe('demo photo.report.json');
  const report = JSON.parse(await textOf(json));
  // The same bits as natively, from the decoded pixels on; the decoder may differ by as much.
  const truth: Record<string, Record<string, number[]>> = JSON.parse(readFileSync(fixture('demo/demo.readings.json'), 'utf8'));
  for (const { region, zones } of report.readings) {
    for (const [zone, { lab }] of Object.entries<{ lab: number[] }>(zones)) lab.forEach((v, i) => expect(Math.abs(v - truth[region]![zone]![i]!)).toBeLessThan(0.1));
  }
  expect(report.scene.regions).toHaveLength(Object.keys(truth).length);

  const cgats = await saved(page, 'Save the colours as CGATS');
  expect(cgats.suggestedFilename()).toBe('demo photo.cgats.txt');
  const text = await textOf(cgats);
  const rows = text.split('BEGIN_DATA\n')[1]!.split('END_DATA')[0]!.trim().split('\n').map((l) => l.split('\t'));
  expect(rows).toHaveLength(4 * report.readings.length);
  for (const part of ['ILLUMINANT, D65', 'OBSERVER, 2 degree', 'KEYWORD\t"DOUBT_DE00"', 'DESCRIPTOR\t"demo photo']) expect(text).toContain(part);
  const [first] = report.readings;
  expect(rows[0]!.slice(5, 8).map(Number)).toEqual(first.zones.cervical.lab.map((v: number) => Number(v.toFixed(4))));

  const all = JSON.parse(await textOf(await saved(page, 'Save the readings of all photos as JSON')));
  expect(all.photos).toMatchObject([{ photo: expect.stringContaining('demo photo'), report: { version: report.version } }]);
  expect(requests.filter((url) => !url.startsWith(address()))).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

it('saves a picture with outlines and numbers that holds nothing of the photo’s own data', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  const [download] = await Promise.all([page.waitForEvent('download'), menu(page, 'Save picture with the outlines (PNG)')]);
  expect(download.suggestedFilename()).toBe('demo photo.outlines.png');
  const bytes = readFileSync((await download.path())!);
  const chunks: string[] = [];
  for (let at = 8; at < bytes.length; at += 12 + bytes.readUInt32BE(at)) chunks.push(bytes.toString('latin1', at + 4, at + 8));
  expect([...new Set(chunks)].filter((c) => !['IHDR', 'sRGB', 'IDAT', 'IEND'].includes(c))).toEqual([]);
  const png = PNG.sync.read(bytes);
  // Wider and higher than the photo: numbers on both sides, words below.
  const { width } = await demoCase();
  expect(png.width).toBeGreaterThan(1300);
  expect(png.width).toBeLessThan(width);
  const grey = (x: number, y: number) => png.data[4 * (y * png.width + x)]! === 0x76;
  // The ground is grey at the corners; between them is writing.
  expect([grey(1, 1), grey(png.width - 2, 1), grey(1, png.height - 2)]).toEqual([true, true, true]);
  let white = 0;
  for (let y = 0; y < png.height; y++) for (let x = 0; x < 300; x++) if (png.data[4 * (y * png.width + x)]! > 240) white++;
  expect(white).toBeGreaterThan(500);
  expect(errors).toEqual([]);
  await close();
});

it('takes shade guides from CSV and CGATS, says what it assumed, and goes back on undo', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const guide = (text: string, name: string) => pick(page, () => menu(page, 'Use another shade guide'), file(name, text));
  await guide('\uFEFFFarbmuster;L*;a*;b*\r\nQ7;73,0;1,5;18,0\r\n', 'bench.csv');
  await guideInUse(page);
  const said = page.getByRole('alert');
  await said.filter({ hasText: 'bench was read as a shade guide, with remarks' }).waitFor();
  expect(await said.innerText()).toContain('taken for published averages');
  await page.getByRole('button', { name: 'Undo' }).click();
  await settled(page);
  await page.locator('.ladder-lane text', { hasText: 'Q7' }).first().waitFor({ state: 'detached' });
  await guide('CGATS.17\nMEASUREMENT_SOURCE "my own"\nWEIGHTING_FUNCTION "ILLUMINANT, D50"\nBEGIN_DATA_FORMAT\nSAMPLE_NAME LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\nQ7 73 1.5 18\nEND_DATA\n', 'bench.txt');
  await guideInUse(page);
  expect(await said.innerText()).toContain('adapted to D65');
  // What cannot be read changes nothing, and says where it is wrong.
  await guide('name,L*,a*,b*\nQ8,73,1.5,18\nQ9,73,much,18\n', 'bad.csv');
  await said.filter({ hasText: 'Row 3: “much” is no number.' }).waitFor();
  await guide('name,L*,a*,b*\n<img src=x onerror=alert(1)>,73,1.5,18\n', 'evil.csv');
  await said.filter({ hasText: 'Row 2: the name “<img src=x onerror=alert(1)>” holds signs that belong to no name.' }).waitFor();
  expect(await page.locator('img[src=x]').count()).toBe(0);
  expect(await page.locator('.ladder-lane text', { hasText: 'Q7' }).count()).toBeGreaterThan(0);
  expect(errors).toEqual([]);
  await close();
});

it('takes a dropped table as a guide, also its own CSV of the readings', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  const csv = await textOf(await saved(page, 'Save the numbers as CSV'));
  const drop = (name: string, text: string) =>
    page.evaluate(({ name, text }) => {
      const data = new DataTransfer();
      data.items.add(new File([text], name, { type: 'text/csv' }));
      window.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
    }, { name, text });
  await drop('mine.csv', csv);
  const said = page.getByRole('alert');
  await said.filter({ hasText: 'mine was read as a shade guide' }).waitFor();
  expect(await said.innerText()).toContain('Rows of teeth and restorations were left out.');
  expect(await said.innerText()).toMatch(/doubt of up to ΔE00 \d/);
  await drop('mine.guide.json', JSON.stringify({ name: 'Dropped', source: 'measured', tabs: [{ name: 'Q7', lab: [73, 1.5, 18] }] }));
  await guideInUse(page);
  expect(errors).toEqual([]);
  await close();
});

it.each([
  [1180, 820],
  [390, 844],
])('shows the ways to save at %i × %i so that anybody can use them', async (width, height) => {
  const { page, errors, close } = await visit({ viewport: { width, height }, bypassCSP: true });
  await openDemo(page);
  await menu(page, 'More ways to save and print');
  await page.getByRole('heading', { name: 'On paper or as PDF' }).waitFor();
  expect([await complaints(page), await cramped(page)]).toEqual([[], { overflow: false, small: [] }]);
  expect(errors).toEqual([]);
  await close();
});

/** A Python that knows JSON Schema, as `xtask/src/setup/outside.rs` finds it. */
const python = ['/usr/bin/python3', 'python3'].find((p) => spawnSync(p, ['-c', 'import jsonschema']).status === 0);

it.skipIf(!python)('saves JSON that another program finds as the schema says', async () => {
  const { page, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  const saving = await (await saved(page, 'Save the reading as JSON')).path();
  const script = fileURLToPath(new URL('../../xtask/outside/schemas.py', import.meta.url));
  expect(execFileSync(python!, ['-B', script, fixture('schema'), saving!, 'report'], { encoding: 'utf8' })).toMatch(/ is a report: \d{4} values/);
  await close();
});

it('gives a book of swatches out, and takes the same in again', async () => {
  const { page, errors, close } = await visit({ acceptDownloads: true });
  await page.getByRole('button', { name: 'My swatches' }).click();
  const { demo: _, ...book } = JSON.parse(readFileSync(fixture('demo/demo.swatches.json'), 'utf8'));
  const open = (name: string, text: string) => pick(page, () => page.getByRole('button', { name: 'Open a swatch file' }).click(), file(name, text, 'application/json'));
  const save = async (): Promise<string> => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save as a file' }).click()]);
    return textOf(download);
  };
  await open('a.swatches.json', JSON.stringify(book));
  await page.locator('.stain').nth(4).waitFor();
  const out = await save();
  expect(JSON.parse(out).swatches).toHaveLength(book.swatches.length);
  await page.getByRole('button', { name: 'Empty the book' }).click();
  await page.locator('.stain').first().waitFor({ state: 'detached' });
  await open('a.swatches.json', out);
  await page.locator('.stain').nth(4).waitFor();
  expect(await save()).toBe(out);
  expect(errors).toEqual([]);
  await close();
});

/** As Poppler's pdftotext reads it: a program of somebody else. */
const onPaper = (pdf: Buffer): string => execFileSync('pdftotext', ['-layout', '-', '-'], { input: pdf, encoding: 'utf8' });
const hasPdftotext = spawnSync('pdftotext', ['-v']).error === undefined;
const pages = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)!.length;

async function printed(page: Page, way: string): Promise<{ text: string; pages: number }> {
  await page.evaluate(() => {
    window.print = () => document.documentElement.setAttribute('data-asked', 'print');
  });
  await menu(page, 'More ways to save and print');
  await page.getByRole('dialog').getByRole('button', { name: way }).click();
  await page.locator('html[data-asked]').waitFor({ state: 'attached' });
  const pdf = await page.pdf({ format: 'A4' });
  await page.evaluate(() => (document.documentElement.removeAttribute('data-asked'), window.dispatchEvent(new Event('afterprint'))));
  return { text: onPaper(pdf), pages: pages(pdf) };
}

it.skipIf(!hasPdftotext)('prints a record and a sheet for the laboratory that another program reads', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const { scene } = await demoCase();
  const read = await numbers(page);
  const record = await printed(page, 'Print for the record');
  for (const { id, name } of scene.regions) {
    expect(record.text).toContain(name);
    for (const zone of Object.values(read[id]!)) expect(record.text).toContain(zone.l.toFixed(1));
  }
  for (const part of ['demo photo: rendered, nobody’s teeth', 'Read by Tabside', 'shade guide: Classical sixteen', '3600 × 2400 px', 'No objection to this photo.', 'Before you decide', 'clinician', 'What the reading stands on', 'All numbers', 'most would correct it']) expect(record.text).toContain(part);
  expect(record.pages).toBeLessThanOrEqual(3);

  const lab = await printed(page, 'Print for the laboratory');
  for (const part of ['For the laboratory', 'Tooth 11', 'Restoration 21', 'Along the axis', '100 %', 'No objection to this photo.', 'Card and tabs', 'Read by Tabside']) expect(lab.text).toContain(part);
  const [tooth, crown] = ['11', '21'].map((name) => read[scene.regions.find((r) => r.name === name)!.id]!);
  for (const third of ['cervical', 'middle', 'incisal']) for (const of of [tooth!, crown!]) expect(lab.text).toContain(`L* ${of[third]!.l.toFixed(1)}`);
  // What only the practice needs is not on it, and it is one sheet.
  expect(lab.text).not.toContain('Before you decide');
  expect(lab.pages).toBe(1);
  // The page is as it was.
  expect(await page.locator('.lab-paper').count()).toBe(0);

  await page.getByRole('button', { name: 'Plan', exact: true }).click();
  await page.getByRole('button', { name: 'Use demo stains' }).first().click();
  await page.locator('.plan-sheet').waitFor();
  const planned = await printed(page, 'Print for the laboratory');
  for (const part of ['For the laboratory', 'Step sheet', 'coats per firing']) expect(planned.text).toContain(part);
  expect(planned.pages).toBe(2);
  expect(errors).toEqual([]);
  await close();
});
