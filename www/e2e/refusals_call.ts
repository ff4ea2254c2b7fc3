/** A call of the page's own engine, in the browser, past the views: for what they look at before it gets that far. */
import type { Page } from 'playwright-core';
import type { BadOf, Made } from './refusals_made';

/** What it says: the error's words, or the answer as text. */
export async function called(page: Page, made: Made, bad: BadOf<'call'>): Promise<string> {
  const [worker, call] = bad.call.startsWith('case:') ? ['case', bad.call.slice(5)] : ['main', bad.call];
  const all: string[] = await page.evaluate(() => performance.getEntriesByType('resource').map((r) => r.name));
  const url = [...page.workers().map((w) => w.url()), ...all].find((u) => new RegExp(`/${worker}-[^/]*\\.js$`).test(u));
  if (!url) throw new Error(`no worker ${worker}`);
  const file = (id: string, name: string) => made.bytes(id, name).toString('base64');
  const open = (bad.open ?? []).map((name) => file(bad.id, name));
  const filled = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(filled);
    if (typeof value !== 'object' || value === null) return value;
    const { $file, $open } = value as { $file?: string; $open?: string };
    if ($file) return { $bytes: file(bad.id, $file) };
    if ($open) return open.push(file(bad.id, $open));
    return '$bytes' in value ? { $bytes: open[0] } : Object.fromEntries(Object.entries(value).map(([k, v]) => [k, filled(v)]));
  };
  const given = filled(bad.arguments) as unknown[];
  return page.evaluate(
    async ({ url, call, given, open }) => {
      const worker = new Worker(url, { type: 'module' });
      const blob = (text: string) => new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))]);
      const real = (value: unknown): unknown => {
        if (Array.isArray(value)) return value.map(real);
        if (typeof value !== 'object' || value === null) return value;
        const { $bytes, $numbers } = value as { $bytes?: string; $numbers?: number[] };
        if ($bytes) return blob($bytes);
        return $numbers ? new Float64Array($numbers) : Object.fromEntries(Object.entries(value).map(([k, v]) => [k, real(v)]));
      };
      let last = 0;
      const ask = (call: string, args: unknown[]) =>
        new Promise<{ kind: string; value?: unknown; error?: { kind: string; message: string } }>((done) => {
          const id = ++last;
          worker.onmessage = ({ data }) => data.id === id && data.kind !== 'phase' && done(data);
          worker.postMessage({ id, call, args });
        });
      try {
        for (const text of open) {
          const { error } = await ask('open', [blob(text)]);
          if (error) return `not open: ${error.message}`;
        }
        const { error, value } = await ask(call, given.map((v) => real(v) ?? undefined));
        return error?.message ?? JSON.stringify(value, (_, v: unknown) => (v instanceof Uint8Array ? v.length : v));
      } finally {
        worker.terminate();
      }
    },
    { url, call, given, open },
  );
}
