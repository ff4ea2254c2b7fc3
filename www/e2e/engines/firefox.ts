/** Firefox by puppeteer-core over WebDriver BiDi, which Firefox speaks itself. */
import puppeteer, { type Browser, type ElementHandle, type Page } from 'puppeteer-core';
import { Driver, type Size } from './driver';

export const FIREFOX = process.env['TABSIDE_FIREFOX'] ?? '/usr/bin/firefox-esr';

export class Firefox extends Driver {
  readonly engine = 'Firefox';
  private readonly asked: string[] = [];
  private readonly faults: string[] = [];

  private constructor(
    private readonly browser: Browser,
    private readonly page: Page,
    readonly version: string,
  ) {
    super();
    page.on('request', (request) => this.asked.push(request.url()));
    page.on('pageerror', (error) => this.faults.push(error instanceof Error ? error.message : String(error)));
    page.on('console', (message) => message.type() === 'error' && this.faults.push(message.text()));
  }

  static async open(): Promise<Driver> {
    const browser = await puppeteer.launch({
      browser: 'firefox',
      executablePath: FIREFOX,
      headless: true,
      extraPrefsFirefox: { 'intl.accept_languages': 'en-US', 'intl.locale.requested': 'en-US' },
    });
    const [page = await browser.newPage()] = await browser.pages();
    return new Firefox(browser, page, (await browser.version()).replace(/^firefox\//, ''));
  }

  async goto(url: string): Promise<void> {
    this.asked.length = this.faults.length = 0;
    await this.page.goto(url);
  }

  setViewport(size: Size): Promise<void> {
    return this.page.setViewport(size);
  }

  async screenshot(): Promise<Buffer> {
    return Buffer.from(await this.page.screenshot());
  }

  async requests(): Promise<string[]> {
    // Firefox counts pictures of its own, too, which stand in their own address.
    return this.asked.filter((url) => !url.startsWith('data:'));
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
    const element = await this.element(expression);
    await element.click({ count: 3 });
    await element.type(text);
  }

  protected async choose(expression: string, path: string): Promise<void> {
    const [chooser] = await Promise.all([this.page.waitForFileChooser(), this.press(expression)]);
    await chooser.accept([path]);
  }

  private async element(expression: string): Promise<ElementHandle<Element>> {
    const element = (await this.page.evaluateHandle(expression)).asElement();
    if (!element) throw new Error(`Firefox: gone before it was used: ${expression.slice(-80)}`);
    return element as ElementHandle<Element>;
  }
}
