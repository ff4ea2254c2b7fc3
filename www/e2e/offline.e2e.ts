/** After one visit the network may go; a newer version comes when the user says so; a spoilt one never. */
import type { Page } from 'playwright-core';
import { afterEach, beforeAll, expect, it } from 'vitest';
import { openPhoto, unfound, numbers, openDemo } from './desk';
import { demoCase } from './demo_case';
import { builtFiles, startServer, type Files, type PageServer } from './offline_server';
import { look, MARK, secondVersion, version } from './offline_versions';
import { copyKept, quiet, visitor, type Visitor } from './offline_visit';
import { journey } from './privacy_journey';

let [first, second]: Files[] = [];
let server: PageServer;
let visit: Visitor;
beforeAll(async () => {
  first = await builtFiles();
  second = secondVersion(first);
});
afterEach(async () => {
  await visit?.close();
  await server?.stop();
});

async function arrive(options: Parameters<typeof visitor>[1] = {}): Promise<Page> {
  server = await startServer(first!);
  visit = await visitor(server, options);
  const page = await visit.open();
  await copyKept(page);
  return page;
}

/** Which version the kept copy is, entry by entry, with the bytes that it should have. */
const copyIs = (page: Page, files: Files): Promise<string[]> =>
  page.evaluate(async (sizes) => {
    const [name] = await caches.keys();
    const cache = await caches.open(name!);
    const wrong: string[] = [];
    for (const [url, bytes] of sizes) {
      const found = await cache.match(new Request(url), { ignoreSearch: true });
      const got = found ? (await found.arrayBuffer()).byteLength : -1;
      if (got !== bytes) wrong.push(`${url}: ${got} of ${bytes}`);
    }
    return [...wrong, ...((await cache.keys()).length === sizes.length ? [] : ['another number of files'])];
  }, [...files].filter(([name]) => name !== 'sw.js').map(([name, bytes]) => [name, bytes.length] as const));

const notice = (page: Page) => page.locator('.new-version');
const use = (page: Page, name = 'Use it now') => notice(page).getByRole('button', { name, exact: true }).click();
/** Uses it, and waits until the page was loaded anew; else what the page says instead. */
async function taken(page: Page, name?: string): Promise<void> {
  try {
    await Promise.all([page.waitForEvent('load'), use(page, name)]);
  } catch (error) {
    throw new Error(`It did not begin: ${await notice(page).innerText()}`, { cause: error });
  }
}
it('works without a network after one visit: all of the journey, with the same numbers', async () => {
  const page = await arrive({ acceptDownloads: true });
  const online = await journey(page);
  expect(await copyIs(page, first!)).toEqual([]);
  // The second time as on a first visit.
  await page.goto(`${server.url}icon.svg`);
  await page.evaluate(() => {
    localStorage.clear();
    return new Promise((done) => Object.assign(indexedDB.deleteDatabase('tabside'), { onsuccess: done, onerror: done }));
  });
  await page.close();
  await server.stop();
  await visit.context.setOffline(true);
  const again = await visit.open();
  // Really cut: what is not kept does not come.
  expect(await again.evaluate(() => fetch('./not-kept').then(() => 'came', () => 'cut'))).toBe('cut');
  visit.errors.length = 0;
  const offline = await journey(again);
  expect({ ...offline, 'printed reading': 0, 'printed steps': 0 }).toEqual({ ...online, 'printed reading': 0, 'printed steps': 0 });
  expect(visit.errors).toEqual([]);
});

it('opens by any address of its folder without a network, wherever that lies', async () => {
  server = await startServer(first!, '/clinic/tools/');
  visit = await visitor(server);
  const page = await visit.open();
  await copyKept(page);
  await server.stop();
  for (const path of ['', 'index.html', '?from=elsewhere', 'index.html?a=1#reading']) {
    await page.goto(server.url + path);
    expect([path, await version(page)]).toEqual([path, 'first']);
  }
  await openDemo(page);
});

it('a new version waits until it is chosen, and then all of it is new', async () => {
  const page = await arrive();
  server.serve(second!);
  await page.reload();
  await notice(page).waitFor();
  expect(await notice(page).innerText()).toContain('A new version of Tabside is here.');
  expect(await version(page)).toBe('first');
  // Nothing forces it; without a network the first goes on, too.
  await page.reload();
  await server.stop();
  await page.reload();
  await openDemo(page);
  expect(await version(page)).toBe('first');
  await notice(page).getByRole('button', { name: 'Not now' }).click();
  await notice(page).waitFor({ state: 'detached' });
  // It is still offered where one looks for it.
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.getByRole('button', { name: 'What is kept where' }).click();
  await Promise.all([page.waitForEvent('load'), page.locator('.dialog.privacy').getByRole('button', { name: 'Use it now' }).click()]);
  expect(await version(page)).toBe('second');
  await expect.poll(() => copyIs(page, second!)).toEqual([]);
  await page.reload();
  await openDemo(page);
  expect(await version(page)).toBe('second');
  expect(await notice(page).count()).toBe(0);
});

it('begins by itself when no window is open any more', async () => {
  const page = await arrive();
  server.serve(second!);
  expect(await look(page)).toBe('installed');
  const blank = await visit.context.newPage();
  await page.close();
  await expect.poll(async () => {
    const next = await visit.open();
    const is = await version(next);
    await next.close();
    return is;
  }, { timeout: 20_000 }).toBe('second');
  await blank.close();
});

it('asks for other windows to be closed first: none goes on with parts of two versions', async () => {
  const page = await arrive();
  const other = await visit.open();
  await openDemo(other);
  server.serve(second!);
  await look(page);
  await use(page);
  await notice(page).getByText('Tabside is open in another window or tab as well').waitFor();
  await quiet(server);
  expect([await version(page), await version(other)]).toEqual(['first', 'first']);
  await other.close();
  await taken(page);
  expect(await version(page)).toBe('second');
});

it('says so where work is not saved, and asks no second time', async () => {
  server = await startServer(first!);
  visit = await visitor(server);
  // A browser that keeps no cases.
  await visit.context.addInitScript(() => Object.assign(IDBFactory.prototype, { open: () => { throw new Error('shut'); } }));
  const page = await visit.open();
  await copyKept(page);
  const { photo } = await demoCase();
  await openPhoto(page, { ...photo, name: 'mine.jpg' });
  await unfound(page);
  server.serve(second!);
  await look(page);
  await notice(page).getByText('There is work in this window that is not saved').waitFor();
  const asked: string[] = [];
  page.on('dialog', (dialog) => (asked.push(dialog.type()), void dialog.accept()));
  expect(await version(page)).toBe('first');
  await taken(page, 'Use it now, without what is not saved');
  expect([await version(page), asked]).toEqual(['second', []]);
});

const SPOILT: Record<string, (bytes: Buffer) => Buffer | null> = {
  'is not there': () => null,
  'breaks off': (bytes) => bytes.subarray(0, bytes.length >> 1),
  'has other bytes': (bytes) => Buffer.from(bytes).fill(0x20, 10, 11),
};
const WHERE: [name: string, what: keyof typeof SPOILT][] = [
  ['assets/parts-second00.js', 'is not there'],
  ['index.html', 'breaks off'],
  ['assets/main-second00.js', 'has other bytes'],
  ['index.html', 'has other bytes'],
];

it.each(WHERE)('a new version of which %s %s leaves the old one whole', async (name, what) => {
  const how = SPOILT[what]!;
  const page = await arrive();
  const before = (await openDemo(page), await numbers(page));
  server.serve(second!);
  server.spoil((file, bytes) => (file === name ? how(bytes) : bytes));
  expect(await look(page)).toBe('redundant');
  await page.reload();
  await quiet(server);
  expect([await version(page), await notice(page).count()]).toEqual(['first', 0]);
  // What came of the new one lies unused beside it.
  expect((await copyIs(page, first!)).filter((wrong) => wrong !== 'another number of files')).toEqual([]);
  await visit.context.setOffline(true);
  await page.reload();
  await openDemo(page);
  expect(await numbers(page)).toEqual(before);
  // Once the server is mended, the next look takes it.
  await visit.context.setOffline(false);
  server.spoil(null);
  expect(await look(page)).toBe('installed');
  await taken(page);
  expect(await version(page)).toBe('second');
  expect(await copyIs(page, second!)).toEqual([]);
});

it('is no copy at all rather than a part of one; the page itself goes on', async () => {
  server = await startServer(first!);
  server.spoil((name, bytes) => (name === 'icons/icon-512.png' ? null : bytes));
  visit = await visitor(server);
  const page = await visit.open();
  await quiet(server);
  expect(await page.evaluate(async () => [navigator.serviceWorker.controller, (await navigator.serviceWorker.getRegistrations()).filter((r) => r.active).length])).toEqual([null, 0]);
  await openDemo(page);
  expect(first!.get('index.html')!.includes(MARK)).toBe(false);
});

it('can be installed: a manifest with icons of the sizes that it says', async () => {
  const page = await arrive();
  const session = await visit.context.newCDPSession(page);
  const { errors, manifest } = (await session.send('Page.getAppManifest')) as { errors: unknown[]; manifest?: { name?: string } };
  expect([errors, manifest?.name ?? 'Tabside']).toEqual([[], 'Tabside']);
  const sizes = await page.evaluate(async () => {
    const link = document.querySelector<HTMLLinkElement>('link[rel=manifest]')!;
    const { icons, start_url } = (await (await fetch(link.href)).json()) as { start_url: string; icons: { src: string; sizes: string; type: string }[] };
    const wrong: string[] = [new URL(start_url, link.href).href === location.href ? '' : start_url];
    for (const { src, sizes, type } of icons) {
      const image = new Image();
      image.src = new URL(src, link.href).href;
      await image.decode();
      if (sizes !== 'any' && sizes !== `${image.naturalWidth}x${image.naturalHeight}`) wrong.push(`${src}: ${image.naturalWidth}`);
      if (!(await fetch(image.src)).headers.get('content-type')!.startsWith(type)) wrong.push(`${src}: type`);
    }
    return wrong.filter(Boolean);
  });
  expect(sizes).toEqual([]);
  const { installabilityErrors } = (await session.send('Page.getInstallabilityErrors')) as { installabilityErrors: { errorId: string }[] };
  expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([]);
});
