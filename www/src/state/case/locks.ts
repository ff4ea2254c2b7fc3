/** One window at a time writes a case. Where the browser knows no locks, only the revision tells. */

const WAITED = ['TimeoutError', 'AbortError'];
const nameOf = (id: string): string => `tabside case ${id}`;

/** By http from another machine there are none. */
const locks = (): LockManager | undefined => globalThis.navigator?.locks;

/** Holds it until the way back is called; `null` when another window does. */
export async function hold(id: string, waitMs = 0): Promise<(() => void) | null> {
  const all = locks();
  if (!all) return () => {};
  return new Promise((got) => {
    const ask = (options: LockOptions): Promise<unknown> =>
      all.request(nameOf(id), options, (lock) => {
        if (!lock) return got(null);
        return new Promise<void>((release) => got(release));
      });
    const options = waitMs > 0 ? { signal: AbortSignal.timeout(waitMs) } : { ifAvailable: true };
    // Where there is no asking at all (a page from a file) there are none.
    ask(options).catch((error: unknown) => got(WAITED.includes((error as Error).name) ? null : () => {}));
  });
}

/** Ids of cases that are open in some window, this one among them. */
export async function heldCases(): Promise<ReadonlySet<string>> {
  const found = (await locks()?.query())?.held ?? [];
  const start = nameOf('');
  return new Set(found.flatMap(({ name }) => (name?.startsWith(start) ? [name.slice(start.length)] : [])));
}
