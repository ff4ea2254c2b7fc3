/** Chromium by playwright-core, as the other end-to-end tests have it. */
import { chromium, type Browser, type ElementHandle, type Page } from 'playwright-core';
import { Driver, type Size } from './driver';

export const CHROMIUM = process.env['TABSIDE_CHROMIUM'] ?? '/usr/bin/chromium';
export const CHROMIUM_ARGS = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

export class Chromium extends Driver {
  readonly engine = 'Chromium';
  readonly version: string;
  private readonly asked: string[] = [];
  private readonly faults: string[] = [];

  private constructor(
    private readonly browser: Browser,
    private readonly page: Page,
  ) {
    super();
    this.version = browser.version();
    page.context().on('request', (request) => this.asked.push(request.url()));
    page.on('pageerror', (error) => this.faults.push(error.message));
    page.on('console', (message) => message.type() === 'error' && this.faults.push(message.text()));
    // Asked for early: a chooser that opens before it is listened for would be the real one.
    page.on('filechooser', () => {});
  }

  static async open(): Promise<Driver> {
    const browser = await chromium.launch({ executablePath: CHROMIUM, args: CHROMIUM_ARGS });
    return new Chromium(browser, await browser.newPage({ locale: 'en-US' }));
  }

  async goto(url: string): Promise<void> {
    this.asked.length = this.faults.length = 0;
    await this.page.goto(url);
  }

  setViewport(size: Size): Promise<void> {
    return this.page.setViewportSize(size);
  }

  screenshot(): Promise<Buffer> {
    return this.page.screenshot();
  }

  async requests(): Promise<string[]> {
    return [...this.asked];
  }

  async errors(): Promise<string[]> {
    return [...this.faults];
  }

  close(): Promise<void> {
    return this.browser.close();
  }

  protected run(expression: string): Promise<unknown> {
    return this.page.evaluate(expression);
  }

  protected async press(expression: string): Promise<void> {
    await (await this.element(expression)).click();
  }

  protected async enter(expression: string, text: string): Promise<void> {
    await (await this.element(expression)).fill(text);
  }

  protected async choose(expression: string, path: string): Promise<void> {
    const [chooser] = await Promise.all([this.page.waitForEvent('filechooser'), this.press(expression)]);
    await chooser.setFiles(path);
  }

  private async element(expression: string): Promise<ElementHandle<Element>> {
    const element = (await this.page.evaluateHandle(expression)).asElement();
    if (!element) throw new Error(`Chromium: gone before it was used: ${expression.slice(-80)}`);
    return element as ElementHandle<Element>;
  }
}
