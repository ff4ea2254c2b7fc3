/** A worker's side of the protocol: one request at a time, in order. */
import type { ErrorKind } from '../engine/types';
import type { Phase, Reply, Request } from './protocol';

const KINDS: readonly string[] = ['file-damaged', 'unsupported', 'too-large', 'input', 'internal'];

export type Told = (phase: Phase) => void;

/** Answers requests. `ready` is what has to be there first. */
export function serve<Name extends string>(ready: Promise<unknown>, run: (call: Name, args: unknown[], told: Told) => Promise<unknown>): void {
  let queue: Promise<void> = Promise.resolve();

  async function answer({ id, call, args }: Request<Name>): Promise<void> {
    const told = (phase: Phase) => reply({ id, kind: 'phase', phase });
    try {
      told('loading-program');
      await ready;
      const value = await run(call, args, told);
      reply({ id, kind: 'value', value }, transferable(value));
    } catch (error) {
      reply({ id, kind: 'error', ...describe(error) });
    }
  }

  self.onmessage = (event: MessageEvent<Request<Name>>) => {
    queue = queue.then(() => answer(event.data));
  };
}

/** Bytes that stand in a buffer of their own are handed over, not copied. */
function transferable(value: unknown): Transferable[] {
  const { rgba, file, photos } = (value ?? {}) as { rgba?: unknown; file?: unknown; photos?: readonly { bytes?: unknown }[] };
  const all = [value, rgba, file, ...(Array.isArray(photos) ? photos.map((p) => p.bytes) : [])];
  return all.flatMap((bytes) => (bytes instanceof Uint8Array && bytes.byteLength === bytes.buffer.byteLength ? [bytes.buffer as ArrayBuffer] : []));
}

/** After anything but a stated error the module's memory cannot be relied on. */
function describe(error: unknown): { error: { kind: ErrorKind; message: string }; broken: boolean } {
  const { kind, message } = (error ?? {}) as { kind?: unknown; message?: unknown };
  if (typeof kind === 'string' && KINDS.includes(kind)) {
    return { error: { kind: kind as ErrorKind, message: String(message) }, broken: false };
  }
  return { error: { kind: 'internal', message: String(message ?? error) }, broken: true };
}

function reply(message: Reply, transfer: Transferable[] = []): void {
  self.postMessage(message, { transfer });
}
