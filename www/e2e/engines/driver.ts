/**
 * What a test does in any engine. Each engine brings its own clicks, keys, file choosing and
 * screenshots; everything that is looked at in the page is looked at by the same code in all of them.
 */
import { locate, textIn, type Sought } from './in_page';

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A CSS selector, or the accessible name of a button: all of it, or its first words. */
export type Target = string | { readonly button: string };

/** How long a condition may take; the slowest of them, a plan's pictures, take 3 s on a busy machine. */
export const PATIENCE_MS = 30_000;
const LOOK_AGAIN_MS = 50;
/** How long a text has to stay as it is. */
const SETTLED_MS = 250;

export const rest = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

export abstract class Driver {
  abstract readonly engine: string;
  abstract readonly version: string;

  /** Opens a page and forgets what was asked for and what went wrong before. */
  abstract goto(url: string): Promise<void>;
  /** The size of the page itself, whatever the window has around it. */
  abstract setViewport(size: Size): Promise<void>;
  abstract screenshot(): Promise<Buffer>;
  /** What has been asked for since the page was: by the page and its workers, or by the page alone where the engine tells no more. */
  abstract requests(): Promise<string[]>;
  /** Errors that nobody caught, and what the console calls an error. */
  abstract errors(): Promise<string[]>;
  abstract close(): Promise<void>;

  /** The value of an expression in the page; it has to survive JSON. */
  protected abstract run(expression: string): Promise<unknown>;
  /** The real thing, on the element that an expression gives. */
  protected abstract press(expression: string): Promise<void>;
  protected abstract enter(expression: string, text: string): Promise<void>;
  /** Presses what opens a file chooser, and chooses. */
  protected abstract choose(expression: string, path: string): Promise<void>;

  evaluate<A extends readonly unknown[], T>(look: (...args: A) => T, ...args: A): Promise<T> {
    return this.run(called(look, args)) as Promise<T>;
  }

  async waitFor<A extends readonly unknown[]>(what: string, holds: (...args: A) => unknown, ...args: A): Promise<void> {
    const expression = called(holds, args);
    await this.until(what, () => this.run(expression));
  }

  async click(target: Target): Promise<void> {
    await this.press(await this.reach(target));
  }

  async type(target: Target, text: string): Promise<void> {
    await this.enter(await this.reach(target), text);
  }

  async setFiles(press: Target, path: string): Promise<void> {
    await this.choose(await this.reach(press), path);
  }

  /** What stands there once the page has worked everything out: nothing is being waited for ("…"), and it no longer changes. */
  async text(selector: string): Promise<string> {
    await this.waitFor(`there is ${selector}`, (css) => document.querySelector(css) !== null, selector);
    const last = Date.now() + PATIENCE_MS;
    for (let before = '', now; ; before = now) {
      now = await this.evaluate(textIn, selector);
      if (now === before && !now.includes('…')) return now;
      if (Date.now() > last) throw new Error(`${this.engine}: ${selector} does not settle: ${now.match(/[^.]{0,60}…/)?.[0] ?? 'it keeps changing'}`);
      await rest(SETTLED_MS);
    }
  }

  /** Waits until a finger would reach it: shown, usable, nothing lying over it, and no longer moving, since the drivers press where it was. */
  private async reach(target: Target): Promise<string> {
    const sought: Sought = typeof target === 'string' ? { css: target } : target;
    const element = called(locate, [sought]);
    let before: unknown;
    const stands = async () => {
      const now = await this.run(`JSON.stringify(${element}?.getBoundingClientRect() ?? null)`);
      const same = now === before && now !== 'null';
      before = now;
      return same;
    };
    await this.until(`${JSON.stringify(sought)} can be reached`, stands);
    return element;
  }

  private async until(what: string, isSo: () => Promise<unknown>): Promise<void> {
    const last = Date.now() + PATIENCE_MS;
    while (!(await isSo())) {
      if (Date.now() > last) {
        const says = await this.run("[document.querySelector('.messages')?.textContent, document.querySelector('main')?.textContent?.slice(0, 200)]").catch(String);
        throw new Error(`${this.engine}: waited ${PATIENCE_MS / 1000} s in vain: ${what}. The page says ${JSON.stringify(says)}; errors ${JSON.stringify(await this.errors().catch(String))}`);
      }
      await rest(LOOK_AGAIN_MS);
    }
  }
}

/** A call of one of the functions of the page, as text: their policy forbids the page to make code, not the driver. */
function called(look: (...args: never[]) => unknown, args: readonly unknown[]): string {
  return `(${look})(${args.map((a) => JSON.stringify(a)).join(', ')})`;
}
