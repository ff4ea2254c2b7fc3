/**
 * The worker seen from the page: one queue, a signal on each call, progress by phase. Aborting a
 * call that already runs ends the worker; a new one takes its place.
 */
import type { CallName, Calls, Phase, Reply, Request } from '../worker/protocol';
import { EngineError } from './types';

export interface CallOptions {
  signal?: AbortSignal | undefined;
  onPhase?: ((phase: Phase) => void) | undefined;
}

/** The part of `Worker` that is used. */
export interface WorkerLike {
  onmessage: ((event: MessageEvent<Reply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: Request): void;
  terminate(): void;
}

interface Job {
  request: Request;
  options: CallOptions;
  resolve(value: unknown): void;
  reject(error: unknown): void;
}

export class EngineClient {
  #worker: WorkerLike | null = null;
  #waiting: Job[] = [];
  #running: Job | null = null;
  #next = 1;

  /** `onRestart` is told when everything the worker held is gone. */
  constructor(
    private readonly makeWorker: () => WorkerLike,
    private readonly onRestart: () => void = () => {},
  ) {}

  call<K extends CallName>(call: K, args: Parameters<Calls[K]>, options: CallOptions = {}): Promise<ReturnType<Calls[K]>> {
    return new Promise<unknown>((resolve, reject) => {
      const { signal } = options;
      if (signal?.aborted) return reject(signal.reason);
      const job: Job = { request: { id: this.#next++, call, args }, options, resolve, reject };
      signal?.addEventListener('abort', () => this.#abort(job), { once: true });
      this.#waiting.push(job);
      this.#pump();
    }) as Promise<ReturnType<Calls[K]>>;
  }

  #pump(): void {
    if (this.#running) return;
    const job = this.#waiting.shift();
    if (!job) return;
    this.#running = job;
    this.#ensureWorker().postMessage(job.request);
  }

  #ensureWorker(): WorkerLike {
    if (this.#worker) return this.#worker;
    const worker = this.makeWorker();
    worker.onmessage = (event) => this.#receive(event.data);
    worker.onerror = (event) => this.#finish((job) => job.reject(new EngineError('internal', event.message)), true);
    return (this.#worker = worker);
  }

  #receive(reply: Reply): void {
    if (reply.id !== this.#running?.request.id) return;
    if (reply.kind === 'phase') this.#running.options.onPhase?.(reply.phase);
    else if (reply.kind === 'value') this.#finish((job) => job.resolve(reply.value));
    else this.#finish((job) => job.reject(new EngineError(reply.error.kind, reply.error.message)), reply.broken);
  }

  #finish(settle: (job: Job) => void, restart = false): void {
    const job = this.#running;
    this.#running = null;
    if (restart) this.#drop();
    if (job) settle(job);
    this.#pump();
  }

  #abort(job: Job): void {
    const reject = () => job.reject(job.options.signal?.reason);
    if (job === this.#running) return this.#finish(reject, true);
    const index = this.#waiting.indexOf(job);
    if (index < 0) return;
    this.#waiting.splice(index, 1);
    reject();
  }

  #drop(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.onRestart();
  }
}
