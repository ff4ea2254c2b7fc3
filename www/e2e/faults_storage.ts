/** Damage to what the page keeps, and browsers that keep nothing. */
import type { Page } from 'playwright-core';
import { address } from './browser';

export interface Damage {
  store: 'cases' | 'docs' | 'photos' | 'desk';
  /** By the label of its case, or its own key. */
  of: string;
  /** What is put in the place of these fields; `random` for so many random bytes. */
  put?: Record<string, unknown>;
  random?: number;
  remove?: boolean;
}

/** Does it while no page of ours is open in the window: on a blank one of the same origin. */
export async function damage(page: Page, damages: Damage[]): Promise<void> {
  await page.route('**/blank', (route) => route.fulfill({ contentType: 'text/html', body: '' }));
  await page.goto(new URL('blank', address()).href);
  await page.evaluate(async (damages) => {
    const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((good, bad) => ((request.onsuccess = () => good(request.result)), (request.onerror = () => bad(request.error))));
    const db = await done(indexedDB.open('tabside'));
    const tx = db.transaction(['cases', 'docs', 'photos', 'desk'], 'readwrite');
    const heads = (await done(tx.objectStore('cases').getAll())) as { id: string; label: string; prints: string[] }[];
    for (const { store, of, put, random, remove } of damages) {
      const all = tx.objectStore(store);
      const head = heads.find(({ label }) => label === of);
      const key = head ? (store === 'photos' ? head.prints[0]! : head.id) : of;
      const field = all.keyPath as string;
      const was = (await done(all.get(key))) as object | undefined;
      const bytes = random === undefined ? {} : { file: new Blob([crypto.getRandomValues(new Uint8Array(random))]), doc: crypto.getRandomValues(new Uint8Array(random)), value: crypto.getRandomValues(new Uint8Array(random)) };
      if (remove) await done(all.delete(key));
      else await done(all.put({ ...(random === undefined && put === undefined ? {} : was), ...bytes, ...put, [field]: key }));
    }
    await new Promise((end) => (tx.oncomplete = end));
    db.close();
  }, damages);
  await page.goto(address());
}

/** Ways in which a browser gives no database. Each runs before the page's own scripts. */
export const NO_DATABASE: Record<string, () => void> = {
  'never answers': () => {
    IDBFactory.prototype.open = () => new EventTarget() as IDBOpenDBRequest;
  },
  'is held by another window for ever': () => {
    IDBFactory.prototype.open = () => {
      const request = new EventTarget();
      setTimeout(() => request.dispatchEvent(new IDBVersionChangeEvent('blocked', { oldVersion: 0, newVersion: 1 })), 50);
      return request as IDBOpenDBRequest;
    };
  },
  'is not to be opened': () => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('denied', 'SecurityError');
    };
  },
  'is not there at all': () => {
    Object.defineProperty(window, 'indexedDB', { get: () => undefined });
  },
  'fails by itself': () => {
    IDBFactory.prototype.open = () => {
      const request = new EventTarget();
      Object.assign(request, { error: new DOMException('Internal error opening backing store', 'UnknownError'), readyState: 'done' });
      setTimeout(() => request.dispatchEvent(new Event('error')), 50);
      return request as IDBOpenDBRequest;
    };
  },
};

/** A page that shows something: not blank, and not broken down. */
export const stands = async (page: Page): Promise<void> => {
  await page.locator('.top-bar').waitFor();
  if (await page.locator('.undrawn').count()) throw new Error('The page could not be drawn.');
};
