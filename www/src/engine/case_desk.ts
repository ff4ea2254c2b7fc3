/** Files of cases, as the page asks for them. Their worker begins with the first call. */
import { MAX_FILE_BYTES } from './desk';
import { WorkerClient, type CallOptions, type WorkerLike } from './client';
import type { Case, CaseNote, Colours, PhotoVerification, ReadGuide } from './case_types';
import { EngineError, type Report } from './types';
import type { CaseCalls, PhotoFile } from '../worker/case_protocol';

/** A worker that held more than this, and was asked for nothing this long, is ended: its memory is given back. */
const LARGE_BYTES = 64 * 1024 * 1024;
const REST_MS = 20_000;
/** No shade guide is larger. */
const MAX_TABLE_BYTES = 4 << 20;

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
  #large = false;

  constructor(makeWorker: () => WorkerLike) {
    this.#client = new WorkerClient<CaseCalls>(makeWorker);
  }

  /** A file will be saved or opened: the worker begins while the user still chooses. */
  begin(): void {
    void this.#ask('begin', []).catch(() => {});
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

  /** A reading as CGATS text for other colour tools. */
  cgats(of: Colours, options?: CallOptions): Promise<string> {
    return this.#ask('cgats', [JSON.stringify(of)], options);
  }

  /** A shade guide from JSON, CSV or CGATS; `name` is what it is called where the file does not say. */
  async guide(file: Blob, name: string, options: CallOptions & { tooLarge: string }): Promise<ReadGuide> {
    if (file.size > MAX_TABLE_BYTES) throw new EngineError('too-large', options.tooLarge);
    return JSON.parse(await this.#ask('guide', [file, name], options)) as ReadGuide;
  }

  #rest(): void {
    this.#large = false;
    this.#client.rest();
  }

  async #ask<K extends keyof CaseCalls>(call: K, args: Parameters<CaseCalls[K]>, options?: CallOptions): Promise<ReturnType<CaseCalls[K]>> {
    clearTimeout(this.#resting);
    const blobs = args.flat().map((a) => (a instanceof Blob ? a : (a as Partial<PhotoFile> | undefined)?.file));
    this.#large ||= blobs.reduce((sum, blob) => sum + (blob?.size ?? 0), 0) > LARGE_BYTES;
    try {
      return await this.#client.call(call, args, options);
    } finally {
      if (this.#large) this.#resting = setTimeout(() => this.#rest(), REST_MS);
    }
  }
}
