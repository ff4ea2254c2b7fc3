/** One Chromium for all tests, and a fresh page for each. */
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright-core';
import { inject } from 'vitest';

let browser: Browser | undefined;

export async function openBrowser(): Promise<void> {
  browser = await chromium.launch({
    executablePath: process.env['TABSIDE_CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
}

export const closeBrowser = async (): Promise<void> => browser?.close();

export const address = (): string => process.env['TABSIDE_URL'] ?? inject('address');

export interface Visit {
  page: Page;
  /** Every request since the page was asked for. */
  requests: string[];
  /** Errors of the page, among them those of its security policy. */
  errors: string[];
  close(): Promise<void>;
}

/** Without the copy for offline use, which would be made anew for each; `offline*` and `privacy*` are about it. */
export async function visit(options: BrowserContextOptions = {}): Promise<Visit> {
  const context = await browser!.newContext({ viewport: { width: 1180, height: 820 }, serviceWorkers: 'block', ...options });
  const page = await context.newPage();
  const requests: string[] = [];
  const errors: string[] = [];
  context.on('request', (request) => requests.push(request.url()));
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => message.type() === 'error' && errors.push(message.text()));
  // Asked for early: a chooser that opens before it is listened for would be the real one.
  page.on('filechooser', () => {});
  await page.goto(address());
  const close = async () => {
    // What a test answers by itself may still be on its way, and its failing then is nobody's.
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await context.close();
  };
  return { page, requests, errors, close };
}
