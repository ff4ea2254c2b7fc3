/**
 * The worker seen from the page: one queue, a signal on each call, progress by phase. Aborting a
 * call that already runs ends the worker; a new one takes its place.
 */
import type { Phase, Reply } from '../worker/protocol';
import { EngineError, type Fault } from './types';

/** The reader of the photo that is looked at, and the one that helps with the others. */
export type Lane = 'front' | 'helper';

export interface CallOptions {
  /** Of work that nobody waits for: by whom it is to be done. */
  by?: Lane | undefined;
  signal?: AbortSignal | undefined;
  onPhase?: ((phase: Phase) => void) | undefined;
}

/** A request, whichever worker it is for. */
interface Asked {
  id: number;
  call: string;
  args: unknown[];
}

/** The part of `Worker` that is used. */
export interface WorkerLike {
  onmessage: ((event: MessageEvent<Reply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: Asked): void;
  terminate(): void;
}

interface Job {
  id: number;
  call: string;
  /** What is sent, made when its turn has come; what cannot be said any more rejects the call. */
  args: () => unknown[];
  options: CallOptions;
  resolve(value: unknown): void;
  reject(error: unknown): void;
}

/** The calls that a worker answers, by name. */
type AnyCalls<C> = { [K in keyof C]: (...args: never[]) => unknown };

export class WorkerClient<C extends AnyCalls<C>> {
  #worker: WorkerLike | null = null;
  #waiting: Job[] = [];
  #running: Job | null = null;
  #next = 1;

  /** `onRestart` is told when everything the worker held is gone. */
  constructor(
    private readonly makeWorker: () => WorkerLike,
    private readonly onRestart: () => void = () => {},
  ) {}

  /** Arguments that depend on what the worker holds are given as a function: by its turn it may be another worker. */
  call<K extends keyof C & string>(call: K, args: Parameters<C[K]> | (() => Parameters<C[K]>), options: CallOptions = {}): Promise<ReturnType<C[K]>> {
    return new Promise<unknown>((resolve, reject) => {
      const { signal } = options;
      if (signal?.aborted) return reject(signal.reason);
      const abort = () => this.#abort(job);
      const settled = <T>(settle: (value: T) => void) => (value: T) => {
        signal?.removeEventListener('abort', abort);
        settle(value);
      };
      const job: Job = { id: this.#next++, call, args: typeof args === 'function' ? args : () => args, options, resolve: settled(resolve), reject: settled(reject) };
      signal?.addEventListener('abort', abort);
      this.#waiting.push(job);
      this.#pump();
    }) as Promise<ReturnType<C[K]>>;
  }

  #pump(): void {
    if (this.#running) return;
    const job = this.#waiting.shift();
    if (!job) return;
    const { id, call } = job;
    const worker = this.#ensureWorker();
    let args: unknown[];
    try {
      args = job.args();
    } catch (error) {
      job.reject(error);
      return this.#pump();
    }
    this.#running = job;
    worker.postMessage({ id, call, args });
  }

  #ensureWorker(): WorkerLike {
    if (this.#worker) return this.#worker;
    const worker = this.makeWorker();
    worker.onmessage = (event) => this.#receive(event.data);
    // A script that did not come leaves no message.
    worker.onerror = ({ message }) => this.#lose(message ? 'broken' : 'unstarted', message);
    return (this.#worker = worker);
  }

  /** The worker is of no use any more. */
  #lose(fault: Fault, message: string): void {
    this.#finish((job) => job.reject(new EngineError('internal', message, fault)), true);
  }

  /** Browsers that end a worker, for its memory, say nothing; but then its lock is free. */
  #watch(lock: string): void {
    const worker = this.#worker;
    const free = () => worker === this.#worker && this.#lose('ended', 'ended');
    void navigator.locks.request(lock, free).catch(() => {});
  }

  #receive(reply: Reply): void {
    if (reply.kind === 'alive') return this.#watch(reply.lock);
    if (reply.id !== this.#running?.id) return;
    if (reply.kind === 'phase') this.#running.options.onPhase?.(reply.phase);
    else if (reply.kind === 'value') this.#finish((job) => job.resolve(reply.value));
    else this.#finish((job) => job.reject(new EngineError(reply.error.kind, reply.error.message, reply.error.fault)), reply.broken);
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

  /** Lets go of a worker that does nothing: its memory never shrinks otherwise. */
  rest(): void {
    if (!this.#running && this.#worker) this.#drop();
  }

  #drop(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.onRestart();
  }
}
