/** A worker's side of the protocol: one request at a time, in order. */
import type { ErrorKind, Fault } from '../engine/types';
import type { Phase, Reply, Request } from './protocol';

const KINDS: readonly string[] = ['file-damaged', 'unsupported', 'too-large', 'input', 'internal'];

export type Told = (phase: Phase) => void;

type Program = { readonly memory: WebAssembly.Memory };

/** Answers requests. `ready` is the program, which has to be there first. */
export function serve<Name extends string>(ready: Promise<Program>, run: (call: Name, args: unknown[], told: Told) => Promise<unknown>): void {
  let queue: Promise<void> = Promise.resolve();

  async function answer({ id, call, args }: Request<Name>): Promise<void> {
    const told = (phase: Phase) => reply({ id, kind: 'phase', phase });
    let program: Program | null = null;
    try {
      told('loading-program');
      program = await ready;
      const value = await run(call, args, told);
      reply({ id, kind: 'value', value }, transferable(value));
    } catch (error) {
      reply({ id, kind: 'error', ...describe(error, program) });
    }
  }

  showLife();
  // Who asks is told.
  ready.catch(() => {});
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

/** The page waits for a lock that this worker never lets go of: so it learns of an end that no browser tells. */
function showLife(): void {
  const lock = `tabside worker ${Math.random()}`;
  const held = () => {
    reply({ id: 0, kind: 'alive', lock });
    return new Promise(() => {});
  };
  // Where there are no locks nobody waits for them.
  void self.navigator.locks?.request(lock, held).catch(() => {});
}

/** A program that asks in vain for so much (256 MB) broke down for want of memory. */
const PROBE_PAGES = 4096;

function faultOf(error: unknown, program: Program | null): Fault | undefined {
  // A file that cannot be read any more: the browser says so.
  if (error instanceof DOMException) return undefined;
  if (!program) return 'unstarted';
  // It is not used again.
  try {
    program.memory.grow(PROBE_PAGES);
  } catch {
    return 'memory';
  }
  return error instanceof RangeError ? 'memory' : 'broken';
}

/** After anything but a stated error the module's memory cannot be relied on. */
function describe(error: unknown, program: Program | null): { error: { kind: ErrorKind; message: string; fault?: Fault }; broken: boolean } {
  const { kind, message } = (error ?? {}) as { kind?: unknown; message?: unknown };
  if (typeof kind === 'string' && KINDS.includes(kind)) {
    return { error: { kind: kind as ErrorKind, message: String(message) }, broken: false };
  }
  const fault = faultOf(error, program);
  return { error: { kind: 'internal', message: String(message ?? error), ...(fault && { fault }) }, broken: true };
}

function reply(message: Reply, transfer: Transferable[] = []): void {
  self.postMessage(message, { transfer });
}
