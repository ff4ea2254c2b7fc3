/** A browser that can reach one server and nobody else, and a page in it that keeps its copy. */
import { chromium, type Browser, type BrowserContext, type BrowserContextOptions, type Page } from 'playwright-core';
import type { PageServer } from './offline_server';

export interface Visitor {
  readonly browser: Browser;
  readonly context: BrowserContext;
  /** Errors of all its pages, among them those of the security policy. */
  readonly errors: string[];
  open(): Promise<Page>;
  close(): Promise<void>;
}

/** For every form that it sees Chromium asks its maker what its fields are; it translates, and looks for printers. */
const OWN_ERRANDS = ['--disable-features=AutofillServerCommunication,Translate,OptimizationHints,MediaRouter,DialMediaRouteProvider,HttpsUpgrades'];

export async function visitor(server: PageServer, options: BrowserContextOptions = {}): Promise<Visitor> {
  const browser = await chromium.launch({
    executablePath: process.env['TABSIDE_CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', ...OWN_ERRANDS],
  });
  // Addresses of this machine too: nothing is asked for that the server does not hear. The browser's own errands are not the page's.
  const proxy = { server: server.url, bypass: '<-loopback>' };
  const context = await browser.newContext({ viewport: { width: 1180, height: 820 }, locale: 'en-US', proxy, ...options });
  const errors: string[] = [];
  context.on('weberror', (error) => errors.push(error.error().message));
  context.on('console', (message) => message.type() === 'error' && errors.push(message.text()));
  const open = async (): Promise<Page> => {
    const page = await context.newPage();
    page.on('filechooser', () => {});
    await page.goto(server.url);
    return page;
  };
  return { browser, context, errors, open, close: () => browser.close() };
}

/** The copy is complete and answers for the page. */
export async function copyKept(page: Page): Promise<void> {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
}

/** Longer than a browser waits before it looks for a newer service worker. */
const QUIET_MS = 2000;

/** Nothing has been asked for in a while. */
export async function quiet(server: PageServer): Promise<void> {
  for (let before = -1; before !== server.asked.length; ) {
    before = server.asked.length;
    await new Promise((done) => setTimeout(done, QUIET_MS));
  }
}
