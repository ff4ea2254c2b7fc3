/** Content that means harm is text and pixels, wherever it is shown, printed or handed on. Nothing runs, and no policy has to stop it. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { address, closeBrowser, openBrowser, visit, type Visit } from './browser';
import { saveCase } from './case_save';
import { fixture, found, menu, openDemo, openDepths, openPhoto, pick, settled, type Given } from './desk';
import { HIDDEN, HOSTILE, SHOWN, harm, hostileCase, soundName, watch } from './hostile_names';
import { showPatient } from './patient_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

async function watched(): Promise<Visit> {
  const visited = await visit({ acceptDownloads: true });
  await watch(visited.page.context());
  await visited.page.reload();
  return visited;
}

/** The file of the demo as a stranger changed it. */
async function strangersCase(): Promise<Given> {
  const { page, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  const file = (await saveCase(page)).buffer;
  await close();
  return { name: `..\\${HOSTILE.slice(0, 60)}.tabside`, mimeType: 'application/octet-stream', buffer: hostileCase(file) };
}

async function downloaded(page: Page, press: () => Promise<unknown>): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  return { name: await download.suggestedFilename(), text: readFileSync((await download.path())!, 'utf8') };
}

/** One of the ways of the dialog. */
const way = (page: Page, name: string) => downloaded(page, async () => (await menu(page, 'More ways to save and print'), await page.getByRole('dialog').getByRole('button', { name }).click()));

it('a case full of hostile names is shown, printed and handed on as text', async () => {
  const file = await strangersCase();
  const { page, errors, requests, close } = await watched();
  await pick(page, () => menu(page, 'Open a case file'), file);
  await page.locator('.opened-file').waitFor();
  await settled(page);
  await openDepths(page);
  const asked = requests.length;
  expect(await page.locator('.opened-file').innerText()).toContain(SHOWN.slice(0, 40));
  expect(await page.locator('#reading').innerText()).toContain(SHOWN.slice(0, 40));
  expect(await harm(page)).toEqual([]);

  await page.emulateMedia({ media: 'print' });
  expect((await page.pdf()).length).toBeGreaterThan(10_000);
  await page.emulateMedia({ media: 'screen' });
  for (const mode of ['Plan', 'Compare', 'Tray', 'Reading']) {
    const tab = page.getByRole('button', { name: mode, exact: true }).first();
    if (await tab.isVisible()) await tab.click();
    expect([mode, await harm(page)]).toEqual([mode, []]);
  }
  const files = [
    await downloaded(page, () => menu(page, 'Save the numbers as CSV')),
    await downloaded(page, () => menu(page, 'Save scene')),
    await way(page, 'Save the reading as JSON'),
    await way(page, 'Save the colours as CGATS'),
    await downloaded(page, () => menu(page, 'Save picture with the outlines')),
  ];
  for (const { name } of files) expect([name, soundName(name)]).toEqual([name, true]);
  const [csv, , , cgats] = files;
  // CGATS parts its cells by white space alone.
  for (const [text, between] of [[csv!.text, /[,;\t\r\n]/], [cgats!.text, /[\t\r\n]/]] as const) {
    expect(text).not.toMatch(HIDDEN);
    for (const cell of text.split(between)) if (!/^-?\d/.test(cell)) expect(cell).not.toMatch(/^[\s"]*[=+\-@]/);
  }
  await menu(page, 'Cases on this device');
  await page.locator('.case-row').first().waitFor();
  expect(await harm(page)).toEqual([]);
  await page.keyboard.press('Escape');
  await showPatient(page);
  expect(await harm(page)).toEqual([]);
  expect(await page.locator('.patient').innerText()).not.toMatch(HIDDEN);
  // What the case brings is opened from the page's own files alone.
  expect(requests.slice(asked).filter((url) => !url.startsWith(address()) && !/^(blob|data):/.test(url))).toEqual([]);
  expect(errors).toEqual([]);
  await close();
}, 240_000);

it('a photo called by a hostile name, and what is typed, stay text', async () => {
  const { page, errors, close } = await watched();
  await openPhoto(page, { name: `${HOSTILE.replaceAll('/', '_').replace('\u0007', '')}.jpg`, mimeType: 'image/jpeg', buffer: readFileSync(fixture('scenes/other.jpg')) });
  await found(page);
  await settled(page);
  expect(await page.locator('.file-name').first().innerText()).toContain('onerror');
  await page.locator('.view-buttons').getByRole('button', { name: 'Add a note' }).click();
  await page.locator('#note-middle').click();
  await page.getByLabel('Text of note 1').fill(HOSTILE);
  expect(await page.getByLabel('Text of note 1').inputValue()).toBe(HOSTILE);
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.printed-notes li').first().innerText()).toContain(SHOWN);
  expect(await harm(page)).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

it('pages that call themselves photos are refused in words; a photo with a page at its end is its pixels', async () => {
  const { page, errors, close } = await watched();
  const html = '<!doctype html><script>window.ran=1</script><img src=x onerror="window.ran=1">';
  const svg = '<svg xmlns="http://www.w3.org/2000/svg" onload="window.ran=1"><script>window.ran=1</script></svg>';
  const jpeg = readFileSync(fixture('scenes/other.jpg'));
  const refused: Given[] = [
    { name: 'svg.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(svg) },
    { name: 'svg.png', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) },
    { name: 'html.jpg', mimeType: 'text/html', buffer: Buffer.from(html) },
    { name: 'begins.jpg', mimeType: 'image/jpeg', buffer: Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.from(html)]) },
  ];
  for (const file of refused) {
    await openPhoto(page, file);
    const alert = page.getByRole('alert').filter({ hasText: file.name });
    await alert.waitFor();
    expect(await alert.innerText()).not.toMatch(/<|window\.ran/);
    expect([file.name, await harm(page)]).toEqual([file.name, []]);
  }
  await openPhoto(page, { name: 'tail.jpg', mimeType: 'image/jpeg', buffer: Buffer.concat([jpeg, Buffer.from(html)]) });
  await found(page);
  await settled(page);
  expect(await harm(page)).toEqual([]);
  expect(page.context().pages()).toHaveLength(1);
  expect(errors).toEqual([]);
  await close();
});

it('the policy lets WebAssembly run and nothing that is written into the page', async () => {
  const html = await (await fetch(address())).text();
  const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)![1]!;
  const of = new Map(policy.split(';').map((part) => part.trim().split(/\s+/)).map(([name, ...sources]) => [name, sources.join(' ')]));
  expect(Object.fromEntries(of)).toEqual({
    'default-src': "'none'", 'script-src': "'self' 'wasm-unsafe-eval'", 'worker-src': "'self'", 'style-src': "'self'", 'img-src': "'self' blob: data:",
    'connect-src': "'self'", 'manifest-src': "'self'", 'base-uri': "'none'", 'form-action': "'none'",
  });
  expect(html.match(/<script(?![^>]*\bsrc=)/g)).toBeNull();
  expect(html).not.toMatch(/\son[a-z]+=|style=|javascript:/i);
  const { page, close } = await watched();
  const seen = await page.evaluate(async () => {
    // What a debugger runs at once is not held to the policy; what comes later is.
    await new Promise((done) => setTimeout(done));
    const tries: (() => unknown)[] = [() => eval('1'), () => new Function('return 1')(), () => import(/* @vite-ignore */ `data:text/javascript,${1}`), () => new Promise((done, fail) => Object.assign(new Worker(URL.createObjectURL(new Blob(['postMessage(1)']))), { onmessage: done, onerror: fail }))];
    return Promise.all(tries.map(async (attempt) => {
      try {
        await attempt();
        return 'ran';
      } catch {
        return 'stopped';
      }
    }));
  });
  expect(seen).toEqual(['stopped', 'stopped', 'stopped', 'stopped']);
  expect((await harm(page)).length).toBeGreaterThanOrEqual(3);
  await close();
});
