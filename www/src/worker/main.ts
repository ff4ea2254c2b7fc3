/** The worker: the only place that names the generated bindings. One request at a time, in order. */
import init, { Engine } from '../../pkg/tabside.js';
import type { ErrorKind } from '../engine/types';
import type { Answers, Phase, Reply, Request } from './protocol';

const KINDS: readonly string[] = ['file-damaged', 'unsupported', 'too-large', 'input', 'internal'];

const engine = init().then(() => new Engine());
let queue: Promise<void> = Promise.resolve();

self.onmessage = (event: MessageEvent<Request>) => {
  queue = queue.then(() => answer(event.data));
};

async function answer(request: Request): Promise<void> {
  const { id } = request;
  try {
    phase(id, 'loading-program');
    const value = await run(await engine, request);
    reply({ id, kind: 'value', value }, transferable(value));
  } catch (error) {
    reply({ id, kind: 'error', ...describe(error) });
  }
}

async function run(engine: Engine, { id, call, args }: Request): Promise<unknown> {
  if (call === 'open') {
    phase(id, 'reading-file');
    const bytes = new Uint8Array(await (args[0] as Blob).arrayBuffer());
    phase(id, 'decoding');
    return engine.open(bytes);
  }
  phase(id, 'working');
  const answers: Answers = engine;
  return (answers[call] as (...args: unknown[]) => unknown).apply(engine, args);
}

/** A picture's bytes are handed over, not copied, when they stand in a buffer of their own. */
function transferable(value: unknown): Transferable[] {
  const rgba = (value as { rgba?: unknown } | null | undefined)?.rgba;
  const own = rgba instanceof Uint8Array && rgba.byteLength === rgba.buffer.byteLength;
  return own ? [rgba.buffer as ArrayBuffer] : [];
}

/** After anything but a stated error the engine's memory cannot be relied on. */
function describe(error: unknown): { error: { kind: ErrorKind; message: string }; broken: boolean } {
  const { kind, message } = (error ?? {}) as { kind?: unknown; message?: unknown };
  if (typeof kind === 'string' && KINDS.includes(kind)) {
    return { error: { kind: kind as ErrorKind, message: String(message) }, broken: false };
  }
  return { error: { kind: 'internal', message: String(message ?? error) }, broken: true };
}

function phase(id: number, phase: Phase): void {
  reply({ id, kind: 'phase', phase });
}

function reply(message: Reply, transfer: Transferable[] = []): void {
  self.postMessage(message, { transfer });
}
