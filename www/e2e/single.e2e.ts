/** The single-file edition in Chromium, from a file's address: all of the journey, and nothing asked of anybody. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { address } from './browser';
import { builtFiles, startServer, type PageServer } from './offline_server';
import { visitor, type Visitor } from './offline_visit';
import { journey } from './privacy_journey';
import { buildSingle, type Single } from './single_build';

let single: Single;
let server: PageServer;
beforeAll(async () => {
  single = await buildSingle();
  server = await startServer(await builtFiles());
}, 120_000);
afterAll(async () => {
  await server?.stop();
  single?.remove();
});

const visit = (): Promise<Visitor> => visitor(server, { acceptDownloads: true, serviceWorkers: 'block' });
const silent = (gave: Record<string, unknown>) => ({ ...gave, 'printed reading': 0, 'printed steps': 0 });

it('gives what the served page gives, and asks for nothing at all', async () => {
  const served = await visit();
  const expected = await journey(await served.open());
  await served.close();

  const { context, errors, close } = await visit();
  const asked: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  await context.setOffline(true);
  const before = server.asked.length;
  const page = await context.newPage();
  page.on('filechooser', () => {});
  await page.goto(single.url);
  expect(silent(await journey(page))).toEqual(silent(expected));
  expect(asked.filter((url) => url !== single.url && !/^(blob|data):/.test(url))).toEqual([]);
  expect(server.asked.slice(before)).toEqual([]);
  // Its own policy.
  expect(await page.evaluate((url) => fetch(url).then(() => 'came', () => 'refused'), address())).toBe('refused');
  expect(errors.filter((text) => !text.includes(address()))).toEqual([]);
  // What it says of itself.
  await page.reload();
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.getByRole('button', { name: 'What is kept where' }).click();
  await page.getByText('This is the edition in a single file').waitFor();
  await page.getByRole('button', { name: 'Erase everything kept on this device' }).click();
  await page.getByRole('button', { name: 'Yes, erase it all now' }).click();
  await page.getByRole('heading', { name: 'Everything kept on this device is erased.' }).waitFor();
  expect(await page.evaluate(() => Object.keys(localStorage))).toEqual([]);
  await close();
}, 180_000);

it('is one file without addresses, its script and style allowed by their hash alone', () => {
  const text = readFileSync(single.path, 'utf8');
  console.log(`single file: ${(text.length / 1e6).toFixed(2)} MB`);
  const code = text.replace(/<script type="text\/plain"[^]*?<\/script>/g, '');
  // Names of vocabularies are no addresses that anybody asks.
  expect([...code.matchAll(/\bhttps?:\/\/[^\s"'`)<]+/g)].map(([url]) => url).filter((url) => !/^http:\/\/www\.w3\.org\/(1998|1999|2000|XML)\//.test(url))).toEqual([]);
  expect(code.match(/<(script|link|img|iframe)\b[^>]*\b(src|href)="(?!data:)[^"]*"/g)).toBe(null);
  expect(code).not.toMatch(/\bfetch\s*\(|XMLHttpRequest|sendBeacon|new WebSocket/);
  const [, policy] = code.match(/http-equiv="Content-Security-Policy" content="([^"]*)"/)!;
  expect(policy!.split('; ').map((part) => part.replace(/sha256-[\w+/=]+/, 'sha256'))).toEqual([
    "default-src 'none'", "script-src 'sha256' 'wasm-unsafe-eval'", 'worker-src blob:', "style-src 'sha256'", 'img-src blob: data:', "connect-src 'none'", "base-uri 'none'", "form-action 'none'",
  ]);
});
