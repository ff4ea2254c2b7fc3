/**
 * The files of open photos, and which of them the worker holds decoded. Pixels are large: few are
 * held, and the least recently used is closed there. Its file stays; it is decoded again when needed.
 */
import type { Calls } from '../worker/protocol';
import type { CallOptions, WorkerClient } from './client';
import { AbsentError } from './absent';
import type { OpenPhoto } from './desk';
import { EngineError, type Found, type Opened } from './types';

/** A pair that is looked at, and one more. */
export const MAX_DECODED = 3;

interface Entry {
  /** `null` for a photo that is not here: only what was read of it is. */
  readonly file: Blob | null;
  /** The worker's name for it; `null` while it is not decoded there. */
  id: number | null;
  /** The id of the cross-polarised photo that the worker knows for its partner. */
  partner: number | null;
  /** What the search found: the same photo gives the same. */
  found: Found | null;
}

type Named = Pick<OpenPhoto, 'handle' | 'name'>;

/** What the worker held was gone when a call's turn came. */
class Lost extends Error {}

/** How often work is begun again before something else must be wrong. */
const MAX_TRIES = 5;

export class Held {
  readonly #entries = new Map<number, Entry>();
  /** The least recently used first. */
  readonly #decoded = new Set<Entry>();
  #last: Promise<unknown> = Promise.resolve();

  constructor(private readonly client: WorkerClient<Calls>) {}

  /** Everything the worker had is gone. */
  workerLost(): void {
    for (const entry of this.#decoded) this.#forget(entry);
  }

  /**
   * One piece of work after another, as the worker does them anyway: no photo is closed while it is
   * needed. What was lost with a worker is begun again.
   */
  inTurn<T>(work: () => Promise<T>, { signal }: CallOptions = {}): Promise<T> {
    const turn = this.#last.then(async () => {
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
    this.#last = turn.catch(() => {});
    return unlessAborted(turn, signal);
  }

  add(handle: number, file: Blob, options: CallOptions): Promise<Opened> {
    const entry: Entry = { file, id: null, partner: null, found: null };
    this.#entries.set(handle, entry);
    return this.inTurn(() => this.#decode(entry, options), options);
  }

  /** A photo that was opened before: it is decoded when something is asked about it. */
  adopt(handle: number, file: Blob | null): void {
    this.#entries.set(handle, { file, id: null, partner: null, found: null });
  }

  fileOf(photo: Named): Blob | null {
    return this.entry(photo).file;
  }

  remove(handle: number): void {
    const entry = this.#entries.get(handle);
    this.#entries.delete(handle);
    if (entry) this.#close(entry);
  }

  entry({ handle, name }: Named): Entry {
    const entry = this.#entries.get(handle);
    if (!entry) throw new EngineError('input', `${name} is no longer open.`);
    return entry;
  }

  /** Has the worker decode it, unless it has. */
  async ensure(photo: Named, options?: CallOptions): Promise<void> {
    const entry = this.entry(photo);
    if (entry.id === null) await this.#decode(entry, options);
    this.#decoded.delete(entry);
    this.#decoded.add(entry);
  }

  /** The worker's name for a photo, for a call that is being sent. */
  id(photo: Named): number {
    const { id } = this.entry(photo);
    if (id === null) throw new Lost();
    return id;
  }

  async #decode(entry: Entry, options?: CallOptions): Promise<Opened> {
    if (!entry.file) throw new AbsentError();
    [...this.#decoded].slice(0, Math.max(0, this.#decoded.size - MAX_DECODED + 1)).forEach((e) => this.#close(e));
    const opened = await this.client.call('open', [entry.file], options);
    entry.id = opened.id;
    this.#decoded.add(entry);
    // It was let go of meanwhile.
    if (![...this.#entries.values()].includes(entry)) this.#close(entry);
    return opened;
  }

  #forget(entry: Entry): void {
    this.#decoded.delete(entry);
    entry.id = entry.partner = null;
  }

  #close(entry: Entry): void {
    const { id } = entry;
    this.#forget(entry);
    if (id !== null) void this.client.call('close', [id]).catch(() => {});
  }
}

/** Waits its turn, unless it is cancelled before. */
function unlessAborted<T>(work: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (!signal) return work;
  return new Promise((resolve, reject) => {
    const abort = () => reject(signal.reason);
    if (signal.aborted) abort();
    signal.addEventListener('abort', abort);
    work.then(resolve, reject).finally(() => signal.removeEventListener('abort', abort));
  });
}
