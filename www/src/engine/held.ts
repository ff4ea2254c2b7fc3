/**
 * Which photos a worker holds decoded. Pixels are large: few are held, and the least recently used is
 * closed there. Its file stays; it is decoded again when needed.
 */
import type { Calls } from '../worker/protocol';
import type { CallOptions, WorkerClient } from './client';
import { AbsentError } from './absent';
import type { Filed, Files, Named } from './files';
import { EngineError, type Opened } from './types';

interface Entry {
  /** The worker's name for it. */
  readonly id: number;
  /** The id of the cross-polarised photo that the worker knows for its partner. */
  partner: number | null;
}

/** What the worker held was gone when a call's turn came. */
class Lost extends Error {}

/** How often work is begun again before something else must be wrong. */
const MAX_TRIES = 5;

export class Held {
  /** The least recently used first. */
  readonly #decoded = new Map<Filed, Entry>();
  #last: Promise<unknown> = Promise.resolve();
  /** Work that somebody waits for; and whether what runs is not of it. */
  #asked = 0;
  #behind = false;
  #rested = -Infinity;

  constructor(
    private readonly client: WorkerClient<Calls>,
    private readonly files: Files,
    /** How many may be decoded. */
    private most: number,
  ) {}

  /** Everything the worker had is gone. */
  workerLost(): void {
    this.#decoded.clear();
  }

  /**
   * One piece of work after another, as the worker does them anyway: no photo is closed while it is
   * needed. What was lost with a worker is begun again.
   */
  inTurn<T>(work: () => Promise<T>, { signal, by }: CallOptions = {}): Promise<T> {
    if (!by) this.#asked++;
    const turn = this.#last.then(async () => {
      this.#behind = by !== undefined;
      for (let tries = 1; ; tries++) {
        signal?.throwIfAborted();
        try {
          return await work();
        } catch (error) {
          if (!(error instanceof Lost)) throw error;
          if (tries === MAX_TRIES) throw new EngineError('internal', error.message);
        }
      }
    });
    this.#last = turn.catch(() => {}).then(() => {
      this.#behind = false;
      if (by) return;
      this.#asked--;
      this.#rested = performance.now();
    });
    return unlessAborted(turn, signal);
  }

  /** For how many milliseconds nothing was asked for by somebody who waits. */
  get quietMs(): number {
    return this.#asked ? 0 : performance.now() - this.#rested;
  }

  /** Whether somebody waits for work that nobody waits for. */
  get keepsWaiting(): boolean {
    return this.#asked > 0 && this.#behind;
  }

  hold(most: number): void {
    this.most = most;
    this.#makeRoom(0);
  }

  has = (filed: Filed): boolean => this.#decoded.has(filed);

  open(filed: Filed, options: CallOptions): Promise<Opened> {
    return this.inTurn(() => this.#decode(filed, options), options);
  }

  /** Has the worker decode it, unless it has. */
  async ensure(photo: Named, options?: CallOptions): Promise<void> {
    const filed = this.files.of(photo);
    const entry = this.#decoded.get(filed);
    if (!entry) return void (await this.#decode(filed, options));
    this.#decoded.delete(filed);
    this.#decoded.set(filed, entry);
  }

  entry(photo: Named): Entry {
    const entry = this.#decoded.get(this.files.of(photo));
    if (!entry) throw new Lost();
    return entry;
  }

  /** The worker's name for a photo, for a call that is being sent. */
  id = (photo: Named): number => this.entry(photo).id;

  async #decode(filed: Filed, options?: CallOptions): Promise<Opened> {
    if (!filed.file) throw new AbsentError();
    this.#makeRoom(1);
    const opened = await this.client.call('open', [filed.file], options);
    this.#decoded.set(filed, { id: opened.id, partner: null });
    // It was let go of meanwhile.
    if (!this.files.has(filed)) this.close(filed);
    return opened;
  }

  #makeRoom(forMore: number): void {
    for (const filed of [...this.#decoded.keys()].slice(0, Math.max(0, this.#decoded.size + forMore - this.most))) this.close(filed);
  }

  close(filed: Filed): void {
    const entry = this.#decoded.get(filed);
    this.#decoded.delete(filed);
    if (entry) void this.client.call('close', [entry.id]).catch(() => {});
  }
}

/** Waits its turn, unless it is cancelled before. */
export function unlessAborted<T>(work: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (!signal) return work;
  return new Promise((resolve, reject) => {
    const abort = () => reject(signal.reason);
    if (signal.aborted) abort();
    signal.addEventListener('abort', abort);
    work.then(resolve, reject).finally(() => signal.removeEventListener('abort', abort));
  });
}
