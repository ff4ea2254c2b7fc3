/** The page's own worker asked from a test. These functions travel as text: they may use nothing from outside themselves. */

interface Bit {
  worker: Worker;
  /** Base64 of files, piece by piece. */
  files: Record<string, string>;
  /** What was read, as lines; or what went wrong. */
  read: Record<string, string>;
}

/** Starts the worker that the page reads photos with. */
export function startWorker(url: string): boolean {
  (window as unknown as { bit: Bit }).bit = { worker: new Worker(url, { type: 'module' }), files: {}, read: {} };
  return true;
}

export function addPiece(name: string, base64: string): number {
  const { files } = (window as unknown as { bit: Bit }).bit;
  return (files[name] = (files[name] ?? '') + base64).length;
}

/** Opens a photo (and the other of a pair), reads it, and closes it again. What was read stands in `bit.read` when it is there. */
export function readOne(name: string, pair: boolean, scene: unknown, guide: unknown): boolean {
  const { worker, files, read } = (window as unknown as { bit: Bit }).bit;
  let next = 1;
  const ask = <T>(call: string, ...args: unknown[]): Promise<T> =>
    new Promise((done, fail) => {
      const id = next++;
      worker.onerror = (event) => fail(new Error(event.message));
      worker.onmessage = ({ data }) => {
        if (data.id !== id || data.kind === 'phase') return;
        if (data.kind === 'value') done(data.value as T);
        else fail(new Error(`${call}: ${data.error.kind}: ${data.error.message}`));
      };
      worker.postMessage({ id, call, args });
    });
  const blob = (file: string) => {
    const bytes = Uint8Array.from(atob(files[file]!), (c) => c.charCodeAt(0));
    delete files[file];
    return new Blob([bytes]);
  };
  const digits = (n: number) => {
    const view = new DataView(new ArrayBuffer(8));
    view.setFloat64(0, n);
    return [0, 4].map((at) => view.getUint32(at).toString(16).padStart(8, '0')).join('');
  };
  /** A line for each number and word, by places in their order; what is missing has none. */
  const lines = (place: string, value: unknown): string[] => {
    if (value === undefined || value === null) return [];
    if (typeof value === 'number') return [`${place} ${digits(value)}`];
    if (typeof value === 'string') return [`${place} ${JSON.stringify(value)}`];
    if (typeof value !== 'object') return [`${place} ${String(value)}`];
    const keys = Array.isArray(value) ? [...value.keys()] : Object.keys(value).sort();
    return keys.flatMap((key) => lines(`${place}/${key}`, (value as Record<string | number, unknown>)[key]));
  };
  const work = async () => {
    await ask('set_guide', guide ?? undefined);
    const { id, checks } = await ask<{ id: number; checks: unknown }>('open', blob(`${name}.photo`));
    const other = pair ? await ask<{ id: number }>('open', blob(`${name}.polarised`)) : null;
    if (other) await ask('pair', id, other.id);
    const report = await ask('read', id, scene, {});
    await ask('close', id);
    if (other) await ask('close', other.id);
    return lines('', { checks, report }).join('\n');
  };
  work().then((text) => (read[name] = text), (error: unknown) => (read[name] = `failed: ${String(error)}`));
  return true;
}

/** Lines once they are there; asked for once. */
export function takeLines(name: string): string | null {
  const { read } = (window as unknown as { bit: Bit }).bit;
  const text = read[name] ?? null;
  delete read[name];
  return text;
}
