/**
 * Invariant 7: no request after load. The browser sees the world through a proxy that serves the page
 * and writes down whatever it is asked for, by page, workers or service worker alike.
 */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { builtFiles, startServer, type Files, type PageServer } from './offline_server';
import { copyKept, quiet, visitor } from './offline_visit';
import { journey } from './privacy_journey';

let files: Files;
let server: PageServer;
beforeAll(async () => {
  files = await builtFiles();
  server = await startServer(files);
});
afterAll(() => server?.stop());

/** Ways out that a proxy may not see, counted in the page; blocked ones too. */
function countWays(): void {
  const used: string[] = ((window as unknown as { waysOut: string[] }).waysOut = []);
  for (const name of ['WebSocket', 'EventSource', 'RTCPeerConnection', 'WebTransport', 'SharedWorker'] as const) {
    const own = (window as unknown as Record<string, unknown>)[name];
    if (typeof own === 'function') Object.assign(window, { [name]: new Proxy(own, { construct: (of, args) => (used.push(name), Reflect.construct(of, args) as object) }) });
  }
  const beacon = navigator.sendBeacon.bind(navigator);
  navigator.sendBeacon = (...args) => (used.push('sendBeacon'), beacon(...args));
  const open = window.open.bind(window);
  window.open = (...args) => (used.push('open'), open(...args));
  document.addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI }) => used.push(`${effectiveDirective} ${blockedURI}`));
}
const waysOut = (page: Page): Promise<string[]> => page.evaluate(() => (window as unknown as { waysOut: string[] }).waysOut);

/** Requests of pages and workers as the browser tells them; what comes from memory has no address that leaves. */
function listen(context: BrowserContext): string[] {
  const told: string[] = [];
  context.on('request', (request) => !/^(blob|data):/.test(request.url()) && told.push(request.url()));
  return told;
}

/** The browser looks by itself, when it likes, whether there is another service worker: no page can ask it to or keep it from that. */
const withoutLook = (asked: readonly string[]): string[] => asked.filter((name) => name !== 'sw.js');

const foreign = (asked: readonly string[]): string[] => asked.filter((name) => !files.has(name));

it('asks for its own files while it loads, and after that for nothing, whatever is done', async () => {
  const { context, errors, open, close } = await visitor(server, { acceptDownloads: true });
  await context.addInitScript(countWays);
  const told = listen(context);
  server.asked.length = 0;
  const page = await open();
  await copyKept(page);
  await quiet(server);
  expect(foreign(server.asked)).toEqual([]);
  const [loaded, toldBefore] = [server.asked.length, told.length];
  expect(loaded).toBeGreaterThanOrEqual(files.size);

  await journey(page, (step) => expect([step, withoutLook(server.asked.slice(loaded))]).toEqual([step, []]));
  await quiet(server);
  expect(withoutLook(server.asked.slice(loaded))).toEqual([]);
  // What the page asked its own copy for.
  expect(told.slice(toldBefore).filter((url) => !url.startsWith(server.url) || !files.has(url.slice(server.url.length)))).toEqual([]);
  expect(await waysOut(page)).toEqual([]);

  // Nobody else keeps anything here, and nothing is kept that goes along with requests.
  const { cookies, origins } = await context.storageState({ indexedDB: true });
  expect([cookies, origins.map(({ origin }) => `${origin}/`)]).toEqual([[], [server.url]]);
  expect(origins[0]!.localStorage.map(({ name }) => name).filter((name) => !name.startsWith('tabside.'))).toEqual([]);
  expect(await page.evaluate(() => [frames.length, document.querySelectorAll('iframe, object, embed').length])).toEqual([0, 0]);
  expect(context.pages()).toHaveLength(1);
  expect(errors).toEqual([]);
  await close();
});

it('where no copy can be kept, it asks for its own files alone', async () => {
  const { context, errors, open, close } = await visitor(server, { acceptDownloads: true, serviceWorkers: 'block' });
  await context.addInitScript(countWays);
  server.asked.length = 0;
  const page = await open();
  await quiet(server);
  const loaded = server.asked.length;
  await journey(page);
  await quiet(server);
  expect(foreign(server.asked)).toEqual([]);
  // The demo and what opens files of cases come when they are wanted.
  expect(server.asked.slice(loaded).filter((name) => !/^(demo\/|assets\/((open_)?case-|tabside_case))/.test(name))).toEqual([]);
  expect(await waysOut(page)).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

it('would hear a page that says something', async () => {
  const { context, open, close } = await visitor(server);
  await context.addInitScript(countWays);
  const told = listen(context);
  const page = await open();
  await copyKept(page);
  await quiet(server);
  const loaded = server.asked.length;
  await page.evaluate(async () => {
    await fetch('./told?what=1').catch(() => {});
    navigator.sendBeacon('./beacon', 'x');
    new Image().src = './pixel.png';
    for (const start of [() => new WebSocket(`ws://${location.host}/talk`), () => new RTCPeerConnection(), () => fetch('http://192.0.2.1/away').catch(() => {})]) {
      try {
        await start();
      } catch {
        // Forbidden is as good as heard: the policy tells.
      }
    }
  });
  await expect.poll(() => foreign(server.asked.slice(loaded)).map((name) => name.replace(server.url, '')).sort()).toEqual(expect.arrayContaining(['POST beacon', 'pixel.png', 'told?what=1']));
  expect(server.asked.slice(loaded).some((name) => /^(CONNECT|UPGRADE)|talk/.test(name))).toBe(true);
  expect(told.some((url) => url.endsWith('told?what=1'))).toBe(true);
  expect(await waysOut(page)).toEqual(expect.arrayContaining(['sendBeacon', 'WebSocket', 'RTCPeerConnection', 'connect-src http://192.0.2.1/away']));
  await close();
});

it('the policy lets no script in, and no picture, style, frame or form of anybody else', async () => {
  const { context, open, close } = await visitor(server);
  await context.addInitScript(countWays);
  const page = await open();
  await page.evaluate(() => {
    const add = (tag: string, set: Record<string, string>) => document.body.append(Object.assign(document.createElement(tag), set));
    add('script', { textContent: 'window.stranger = 1' });
    add('script', { src: 'http://192.0.2.1/a.js' });
    add('img', { src: 'http://192.0.2.1/a.png' });
    add('link', { rel: 'stylesheet', href: 'http://192.0.2.1/a.css' });
    add('iframe', { src: 'http://192.0.2.1/' });
    document.body.insertAdjacentHTML('beforeend', '<p style="color: red" onclick="1"></p>');
  });
  await expect.poll(async () => new Set((await waysOut(page)).map((way) => way.split(' ')[0])).size).toBeGreaterThan(5);
  const refused = await waysOut(page);
  for (const way of ['script-src-elem inline', 'script-src-elem http://192.0.2.1/a.js', 'img-src http://192.0.2.1/a.png', 'style-src-elem http://192.0.2.1/a.css', 'style-src-attr inline']) expect(refused).toContain(way);
  expect(refused.some((way) => /^(frame-src|child-src|default-src)/.test(way))).toBe(true);
  expect(await page.evaluate(() => 'stranger' in window)).toBe(false);
  await close();
});
