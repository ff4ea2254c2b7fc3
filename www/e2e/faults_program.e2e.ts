/** The program of the page does not come, comes spoilt, or gets no memory: the page says so in plain words and stays of use. */
import { readFileSync } from 'node:fs';
import type { Page, Route } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { drop, menu, numbers, type Given } from './desk';
import { withMemory } from './faults_wasm';
import { dropSmall } from './faults_small';
import { openOne, photo } from './keeping_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const READER = '**/tabside_bg*.wasm';

async function bytesOf(route: Route): Promise<Buffer> {
  return (await route.fetch()).body();
}

const SPOILT: Record<string, (route: Route) => Promise<void>> = {
  'is not there': (route) => route.fulfill({ status: 404, body: 'not found' }),
  'is a page': (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>Sign in</title>' }),
  'is cut short': async (route) => route.fulfill({ contentType: 'application/wasm', body: (await bytesOf(route)).subarray(0, 200_000) }),
  'is other bytes': async (route) => {
    const bytes = await bytesOf(route);
    await route.fulfill({ contentType: 'application/wasm', body: bytes.fill(0x55, 1000, 3000) });
  },
  'does not come at all': (route) => route.abort('connectionreset'),
};

const alert = (page: Page, text: string) => page.getByRole('alert').filter({ hasText: text });

for (const [how, spoil] of Object.entries(SPOILT)) {
  it(`stands, and goes on once it can, when the program ${how}`, async () => {
    const { page, close } = await visit({ acceptDownloads: true });
    await page.route(READER, spoil);
    await page.reload();
    await alert(page, 'The program could not be started.').waitFor();
    const said = await alert(page, 'The program could not be started.').innerText();
    expect(said).toContain('did not come whole');
    expect(said).toContain('Load the page again');
    expect(said).not.toMatch(/WebAssembly|CompileError|TypeError|undefined|fetch/);
    await page.getByRole('button', { name: 'Open a photo' }).waitFor();
    await dropSmall(page, 'a.jpg');
    await alert(page, 'a.jpg could not be opened.').waitFor();
    if (how !== 'is cut short') return close();
    await page.getByRole('button', { name: 'My swatches' }).click();
    await page.locator('#swatches').waitFor();
    await page.locator('.modes').getByRole('button', { name: 'Start' }).click();
    // It can be had again: no need to load the page.
    await page.unroute(READER);
    await openOne(page, photo('a.jpg'));
    expect(Object.keys(await numbers(page)).length).toBeGreaterThan(2);
    // And with it the guide that comes with it.
    const [download] = await Promise.all([page.waitForEvent('download'), menu(page, 'Save the numbers as CSV')]);
    const [head, row] = readFileSync((await download.path())!, 'utf8').split('\n').map((line) => line.split(','));
    expect(row![head!.indexOf('guide')]).not.toBe('');
    await close();
  });
}

/** A picture of so many megapixels, as lossless files have it. */
async function large(page: Page, width: number, height: number): Promise<Given> {
  const text = await page.evaluate(async ([width, height]) => {
    const canvas = new OffscreenCanvas(width, height);
    canvas.getContext('2d')!.fillRect(0, 0, width / 2, height);
    const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer());
    return btoa(bytes.reduce((all, byte) => all + String.fromCharCode(byte), ''));
  }, [width, height] as const);
  return { name: 'large.png', mimeType: 'image/png', buffer: Buffer.from(text, 'base64') };
}

it('says that there is no more memory for a large photo, and goes on with a smaller one', async () => {
  const { page, close } = await visit();
  await page.route(READER, async (route) => route.fulfill({ contentType: 'application/wasm', body: withMemory(await bytesOf(route), 96e6) }));
  await page.reload();
  await openOne(page, photo('a.jpg'));
  const before = await numbers(page);
  await drop(page, await large(page, 6000, 5000));
  await alert(page, 'large.png could not be opened. What was open is still here.').waitFor();
  const said = await alert(page, 'large.png').innerText();
  expect(said).toContain('no more memory');
  expect(said).toContain('open a smaller copy of the photo');
  expect(await page.locator('.file-name').innerText()).toBe('a.jpg');
  expect(await numbers(page)).toEqual(before);
  await openOne(page, photo('b.jpg'));
  expect(Object.keys(await numbers(page)).length).toBeGreaterThan(2);
  await close();
});
