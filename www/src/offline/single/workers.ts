/**
 * Stands in for `engine/workers`: from a file's address no worker may be loaded, so each is a classic
 * script made of its text, and its module's bytes are handed over as the first message.
 */
import type { WorkerLike } from '../../engine/client';
import { PROGRAM, withBytes } from './handed';
import { piece, pieceText } from './pieces';

type Sent = Parameters<WorkerLike['postMessage']>[0];

/** A worker that comes as soon as it is unpacked; what is said to it before then waits. */
class Unpacked implements WorkerLike {
  onmessage: WorkerLike['onmessage'] = null;
  onerror: WorkerLike['onerror'] = null;
  #worker: Promise<Worker | null>;

  constructor(name: string) {
    this.#worker = this.#start(name).catch((error: unknown) => (this.onerror?.(new ErrorEvent('error', { message: String(error) })), null));
  }

  async #start(name: string): Promise<Worker> {
    const [script, program] = await Promise.all([pieceText(`${name}.js`), piece(`${name}.wasm`)]);
    const url = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
    const worker = new Worker(url);
    URL.revokeObjectURL(url);
    worker.onmessage = (event) => this.onmessage?.(event);
    worker.onerror = (event) => this.onerror?.(event);
    worker.postMessage({ [PROGRAM]: program });
    return worker;
  }

  postMessage(message: Sent): void {
    const bytes: ArrayBuffer[] = [];
    const sent = withBytes(message, bytes).then(async (told) => (await this.#worker)?.postMessage(told, bytes));
    // A file that can no longer be read.
    sent.catch((error: unknown) => this.onerror?.(new ErrorEvent('error', { message: String(error) })));
  }

  terminate(): void {
    this.onmessage = this.onerror = null;
    void this.#worker.then((worker) => worker?.terminate());
  }
}

export const startReader = (): WorkerLike => new Unpacked('main');
export const startCases = (): WorkerLike => new Unpacked('case');
