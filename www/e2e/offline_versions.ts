/** A second version of the page that is under test, as another build would be: other names where the content is other, and its own list. */
import type { Page } from 'playwright-core';
import { entryOf } from '../scripts/service_worker.ts';
import type { Files } from './offline_server';

const isText = (name: string): boolean => /\.(js|html)$/.test(name);
const scripts = (files: Files): string[] => [...files.keys()].filter((name) => /^assets\/.*\.js$/.test(name));
const renamed = (name: string): string => name.replace(/-[\w-]{8}\.js$/, '-second00.js');

export const MARK = '<meta name="edition" content="second" />';

export function secondVersion(files: Files): Files {
  const other = scripts(files).map((name) => [name.slice('assets/'.length), renamed(name).slice('assets/'.length)] as const);
  const texts = new Map<string, Buffer>();
  for (const [name, bytes] of files) {
    if (name === 'sw.js') continue;
    let text = isText(name) ? other.reduce((t, [from, to]) => t.replaceAll(from, to), bytes.toString()) : '';
    if (name === 'index.html') text = text.replace('<head>', `<head>${MARK}`);
    texts.set(renamed(name), text ? Buffer.from(text) : bytes);
  }
  return texts.set('sw.js', workerWith(files.get('sw.js')!, texts));
}

/** The service worker with the list of other files. */
function workerWith(worker: Buffer, files: Files): Buffer {
  const list = [...files].map(([url, bytes]) => entryOf(url, bytes));
  const text = worker.toString();
  const from = text.indexOf('[{url:');
  const to = text.indexOf('}]', from) + 2;
  if (from < 0 || to < 2) throw new Error('The service worker has no list of files.');
  return Buffer.from(text.slice(0, from) + JSON.stringify(list) + text.slice(to));
}

/** Which version runs: its page and its scripts must not be of two. */
export async function version(page: Page): Promise<'first' | 'second' | 'mixed'> {
  await page.locator('#page h1').first().waitFor();
  const [marked, scripts] = await page.evaluate(
    () => [document.querySelector('meta[name=edition]') !== null, performance.getEntriesByType('resource').map(({ name }) => name).filter((name) => name.endsWith('.js') && !name.endsWith('sw.js'))] as const,
  );
  const ofSecond = scripts.filter((name) => name.includes('-second00.js')).length;
  if (marked && ofSecond === scripts.length) return 'second';
  return !marked && ofSecond === 0 ? 'first' : 'mixed';
}

/** Looks for a newer version now, as the browser does on each visit. */
export const look = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const registration = (await navigator.serviceWorker.getRegistration())!;
    await registration.update().catch(() => {});
    const worker = registration.installing;
    if (!worker) return registration.waiting ? 'waiting' : 'none';
    await new Promise<void>((done) => worker.addEventListener('statechange', () => worker.state !== 'installing' && done()));
    return worker.state;
  });
