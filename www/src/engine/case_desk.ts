/** Files of cases, as the page asks for them. Their worker begins with the first call and rests when nothing is asked of it. */
import { MAX_FILE_BYTES } from './desk';
import { WorkerClient, type CallOptions, type WorkerLike } from './client';
import type { Case, CaseNote, PhotoVerification } from './case_types';
import { EngineError, type Report } from './types';
import type { CaseCalls, PhotoFile } from '../worker/case_protocol';

/** A worker that was asked for nothing this long is ended: the memory of what it read is given back. */
const REST_MS = 20_000;

export interface OpenedCase {
  readonly case: Case;
  /** By the photo's id; those that are not in the file are missing. */
  readonly photos: ReadonlyMap<string, Blob>;
  /** A newer program wrote it. */
  readonly readOnly: boolean;
  readonly notes: readonly CaseNote[];
}

export class CaseDesk {
  readonly #client: WorkerClient<CaseCalls>;
  #resting: ReturnType<typeof setTimeout> | undefined;

  constructor(makeWorker: () => WorkerLike) {
    this.#client = new WorkerClient<CaseCalls>(makeWorker);
  }

  /** The file, and the case as it stands in it. */
  async write(wanted: Case, photos: readonly PhotoFile[], options?: CallOptions): Promise<{ file: Blob; case: Case }> {
    const { file, json } = await this.#ask('write', [JSON.stringify(wanted), [...photos]], options);
    return { file: new Blob([file], { type: 'application/zip' }), case: JSON.parse(json) as Case };
  }

  async read(file: Blob, options: CallOptions & { tooLarge: string }): Promise<OpenedCase> {
    if (file.size > MAX_FILE_BYTES) throw new EngineError('too-large', options.tooLarge);
    const { json, photos, readOnly, notes } = await this.#ask('read', [file], options);
    return { case: JSON.parse(json) as Case, photos: new Map(photos.map(({ id, bytes }) => [id, new Blob([bytes])])), readOnly, notes: JSON.parse(notes) as CaseNote[] };
  }

  /** The photo's file, freed of position, serial numbers and names. */
  async scrub(file: Blob, options?: CallOptions): Promise<Blob> {
    return new Blob([await this.#ask('scrub', [file], options)], { type: file.type });
  }

  /** The kept numbers of a photo against those derived again; without them it says why there are none. */
  async compare(kept: Case, photo: string, now: Report | undefined, options?: CallOptions): Promise<PhotoVerification> {
    return JSON.parse(await this.#ask('compare', [JSON.stringify(kept), photo, now && JSON.stringify(now)], options)) as PhotoVerification;
  }

  async #ask<K extends keyof CaseCalls>(call: K, args: Parameters<CaseCalls[K]>, options?: CallOptions): Promise<ReturnType<CaseCalls[K]>> {
    clearTimeout(this.#resting);
    try {
      return await this.#client.call(call, args, options);
    } finally {
      clearTimeout(this.#resting);
      this.#resting = setTimeout(() => this.#client.rest(), REST_MS);
    }
  }
}
