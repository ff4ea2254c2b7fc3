/**
 * WebKitGTK: its MiniBrowser on a display in memory (Xvfb), driven by plain W3C WebDriver over HTTP
 * (https://www.w3.org/TR/webdriver2/). No package knows this driver; the dozen calls are few enough.
 */
import { Driver, PATIENCE_MS, rest, type Size } from './driver';
import { miniBrowser, startWebKitDriver, type WebKitDriver } from './webkit_start';

/** The name of element references in the standard. */
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';

export class WebKit extends Driver {
  readonly engine = 'WebKitGTK';
  version = '';
  private session = '';

  private constructor(private readonly driver: WebKitDriver) {
    super();
  }

  static async open(): Promise<Driver> {
    const webkit = new WebKit(await startWebKitDriver());
    try {
      await webkit.begin();
    } catch (error) {
      await webkit.close();
      throw error;
    }
    return webkit;
  }

  private async begin(): Promise<void> {
    const last = Date.now() + PATIENCE_MS;
    while (!(await fetch(`${this.driver.address}/status`).catch(() => null)) && Date.now() < last) await rest(50);
    const options = { binary: miniBrowser(), args: ['--automation'] };
    const { sessionId, capabilities } = (await this.ask('POST', '/session', { capabilities: { alwaysMatch: { 'webkitgtk:browserOptions': options } } })) as {
      sessionId: string;
      capabilities: { browserVersion: string };
    };
    this.session = `/session/${sessionId}`;
    this.version = capabilities.browserVersion;
  }

  private async ask(method: 'GET' | 'POST' | 'DELETE', path: string, body?: unknown): Promise<unknown> {
    const reply = await fetch(this.driver.address + this.session + path, { method, ...(body === undefined ? {} : { body: JSON.stringify(body) }) });
    const { value } = (await reply.json()) as { value: { error?: string; message?: string } };
    if (!reply.ok) throw new Error(`WebKitGTK: ${path}: ${value.error}: ${value.message}`);
    return value;
  }

  async goto(url: string): Promise<void> {
    await this.ask('POST', '/url', { url });
    // The driver tells of no errors; those from now on are written down in the page.
    await this.evaluate(() => {
      const faults: string[] = ((window as unknown as { faults: string[] }).faults = []);
      addEventListener('error', ({ message }) => faults.push(message));
      addEventListener('unhandledrejection', ({ reason }) => faults.push(String(reason)));
      addEventListener('securitypolicyviolation', ({ violatedDirective }) => faults.push(`policy: ${violatedDirective}`));
    });
  }

  async setViewport({ width, height }: Size): Promise<void> {
    const inside = () => this.evaluate(() => [innerWidth, innerHeight] as const);
    await this.ask('POST', '/window/rect', { width, height });
    const last = Date.now() + PATIENCE_MS;
    for (let [w, h] = [0, 0]; ; ) {
      const [nowW, nowH] = await inside();
      if (nowW === width && nowH === height) return;
      if (Date.now() > last) throw new Error(`WebKitGTK: the page is ${nowW} × ${nowH} and does not become ${width} × ${height}`);
      // Once it stands still, the window is made larger than the page in it by what is measured.
      if (nowW === w && nowH === h) {
        const window = (await this.ask('GET', '/window/rect')) as Size;
        await this.ask('POST', '/window/rect', { width: width + window.width - nowW, height: height + window.height - nowH });
      }
      [w, h] = [nowW, nowH];
      await rest(100);
    }
  }

  async screenshot(): Promise<Buffer> {
    return Buffer.from((await this.ask('GET', '/screenshot')) as string, 'base64');
  }

  requests(): Promise<string[]> {
    return this.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name).filter((url) => /^https?:/.test(url)));
  }

  errors(): Promise<string[]> {
    // That a size took two frames to settle is told as an error in every engine; the other two drivers keep it to themselves.
    return this.evaluate(() => (window as unknown as { faults: string[] }).faults.filter((text) => !text.startsWith('ResizeObserver loop')));
  }

  async close(): Promise<void> {
    if (this.session) await this.ask('DELETE', '').catch(() => {});
    await this.driver.stop();
  }

  protected run(expression: string): Promise<unknown> {
    return this.ask('POST', '/execute/sync', { script: `return ${expression}`, args: [] });
  }

  protected async press(expression: string): Promise<void> {
    await this.ask('POST', `/element/${await this.element(expression)}/click`, {});
  }

  protected async enter(expression: string, text: string): Promise<void> {
    const element = await this.element(expression);
    await this.ask('POST', `/element/${element}/clear`, {});
    await this.ask('POST', `/element/${element}/value`, { text });
  }

  /** The button is really pressed; its chooser stays shut, and the input that it belongs to gets the file by the standard's own way. */
  protected async choose(expression: string, path: string): Promise<void> {
    await this.evaluate(() => {
      HTMLInputElement.prototype.click = function () {
        this.dataset['chooser'] = 'shut';
      };
    });
    await this.press(expression);
    const input = `document.querySelector('input[data-chooser=shut]')`;
    await this.waitFor('a file is asked for', () => document.querySelector('input[data-chooser=shut]') !== null);
    await this.ask('POST', `/element/${await this.element(input)}/value`, { text: path });
    await this.evaluate(() => void delete (HTMLInputElement.prototype as Partial<HTMLInputElement>).click);
  }

  private async element(expression: string): Promise<string> {
    const element = (await this.run(expression)) as Record<string, string> | null;
    if (!element?.[ELEMENT]) throw new Error(`WebKitGTK: gone before it was used: ${expression.slice(-80)}`);
    return element[ELEMENT];
  }
}
