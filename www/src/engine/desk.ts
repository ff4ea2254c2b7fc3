/**
 * Open photos by handles that outlive the worker: after a restart a photo is decoded again from
 * its file the next time it is needed.
 */
import { EngineClient, type CallOptions, type WorkerLike } from './client';
import { fingerprint } from './fingerprint';
import { StainCalls } from './stain_calls';
import {
  EngineError, type Found, type FoundRegion, type Guide, type LightCheck, type Patch, type PhotoInfo, type Point, type Preview, type Rect, type Report,
  type Scene, type SwatchBook, type ZonePlan,
} from './types';

export interface OpenPhoto {
  readonly handle: number;
  readonly name: string;
  /** The same for the same bytes under any name. */
  readonly print: string;
  readonly info: PhotoInfo;
  readonly checks: LightCheck[];
}

export interface ReadRequest {
  photo: OpenPhoto;
  polarised: OpenPhoto | null;
  scene: Scene;
  target: string | undefined;
  /** The guide the user chose; the default one otherwise. */
  guide: Guide | null;
}

/** A browser tab would choke on more before the engine could say so. */
export const MAX_FILE_BYTES = 400 * 1024 * 1024;

/** What a plan makes of a region: the book it was made with, and its thirds. */
export interface Planned {
  region: string;
  book: SwatchBook;
  zones: ZonePlan[];
}

export class Desk {
  readonly #client: EngineClient;
  /** What needs no photo. */
  readonly stains: StainCalls;
  readonly #files = new Map<number, { file: Blob; id: number | null }>();
  #next = 1;
  /** Workers lost so far. */
  #workers = 0;
  /** The guide the worker has; `null` for its default one. */
  #guide: Guide | null = null;
  #paired: string | null = null;

  constructor(makeWorker: () => WorkerLike) {
    this.#client = new EngineClient(makeWorker, () => {
      for (const entry of this.#files.values()) entry.id = null;
      this.#guide = this.#paired = null;
      this.#workers++;
    });
    this.stains = new StainCalls(this.#client);
  }

  async open(file: Blob, name: string, options: CallOptions & { tooLarge: string }): Promise<OpenPhoto> {
    if (file.size > MAX_FILE_BYTES) throw new EngineError('too-large', options.tooLarge);
    const [{ id, info, checks }, print] = await Promise.all([this.#client.call('open', [file], options), fingerprint(file)]);
    const handle = this.#next++;
    this.#files.set(handle, { file, id });
    return { handle, name, print, info, checks };
  }

  close({ handle }: OpenPhoto): void {
    const id = this.#files.get(handle)?.id;
    this.#files.delete(handle);
    if (id != null) void this.#client.call('close', [id]).catch(() => {});
  }

  defaultGuide(): Promise<Guide> {
    return this.#client.call('guide', []);
  }

  /** Checks a guide; gives it as the engine understood it. */
  async checkGuide(guide: Guide): Promise<Guide> {
    return (this.#guide = await this.#client.call('set_guide', [guide]));
  }

  preview(photo: OpenPhoto, maxPx: number, options?: CallOptions): Promise<Preview> {
    return this.#about(photo, options, (id) => this.#client.call('preview', [id, maxPx], options));
  }

  find(photo: OpenPhoto, options?: CallOptions): Promise<Found> {
    return this.#about(photo, options, (id) => this.#client.call('find', [id], options));
  }

  outlineChoices(photo: OpenPhoto, tap: Point, options?: CallOptions): Promise<FoundRegion[]> {
    return this.#about(photo, options, (id) => this.#client.call('outline_choices', [id, tap], options));
  }

  cutOutline(photo: OpenPhoto, outline: Point[], stroke: Point[], options?: CallOptions): Promise<FoundRegion[]> {
    return this.#about(photo, options, (id) => this.#client.call('cut_outline', [id, outline, stroke], options));
  }

  outlineCard(photo: OpenPhoto, tap: Point, options?: CallOptions): Promise<Point[]> {
    return this.#about(photo, options, (id) => this.#client.call('outline_card', [id, tap], options));
  }

  outlineCardIn(photo: OpenPhoto, box: Rect, options?: CallOptions): Promise<Point[]> {
    return this.#about(photo, options, (id) => this.#client.call('outline_card_in', [id, box], options));
  }

  read(wanted: ReadRequest, options?: CallOptions): Promise<Report> {
    return this.#again(async () => {
      const id = await this.#prepared(wanted, options);
      return this.#client.call('read', [id, wanted.scene, { target: wanted.target }], options);
    });
  }

  async glareMap(wanted: ReadRequest, maxPx: number, options?: CallOptions): Promise<Preview> {
    return this.#client.call('glare_map', [await this.#prepared(wanted, options), wanted.scene, maxPx], options);
  }

  /** A region as a plan predicts it, turned upright. */
  plannedPicture(wanted: ReadRequest, { region, book, zones }: Planned, heightPx: number, options?: CallOptions): Promise<Preview> {
    return this.#again(async () => this.#client.call('planned_picture', [await this.#prepared(wanted, options), wanted.scene, region, book, zones, heightPx], options));
  }

  /** The same, to lay over the photo. */
  plannedPatch(wanted: ReadRequest, { region, book, zones }: Planned, maxPx: number, options?: CallOptions): Promise<Patch> {
    return this.#again(async () => this.#client.call('planned_patch', [await this.#prepared(wanted, options), wanted.scene, region, book, zones, maxPx], options));
  }

  /** Where a region is uneven, to lay over the photo. */
  evennessMap(wanted: ReadRequest, region: string, maxPx: number, options?: CallOptions): Promise<Patch> {
    return this.#again(async () => this.#client.call('evenness_map', [await this.#prepared(wanted, options), wanted.scene, region, maxPx], options));
  }

  /** The worker has both photos, knows them for a pair, and has the guide. */
  async #prepared({ photo, polarised, guide }: ReadRequest, options?: CallOptions): Promise<number> {
    const id = await this.#id(photo, options);
    const partner = polarised && (await this.#id(polarised, options));
    if (guide !== this.#guide) {
      await this.#client.call('set_guide', [guide ?? undefined], options);
      this.#guide = guide;
    }
    const pairing = `${id}+${partner}`;
    if (pairing !== this.#paired && (partner !== null || this.#paired)) {
      await this.#client.call('pair', [id, partner], options);
    }
    this.#paired = pairing;
    return id;
  }

  straightened(photo: OpenPhoto, scene: Scene, region: string, heightPx: number, options?: CallOptions): Promise<Preview> {
    return this.#about(photo, options, (id) => this.#client.call('straightened', [id, scene, region, heightPx], options));
  }

  #about<T>(photo: OpenPhoto, options: CallOptions | undefined, call: (id: number) => Promise<T>): Promise<T> {
    return this.#again(async () => call(await this.#id(photo, options)));
  }

  /** Once more when the worker was lost while a call waited its turn: its photo has another id now. */
  async #again<T>(work: () => Promise<T>): Promise<T> {
    const before = this.#workers;
    try {
      return await work();
    } catch (error) {
      const lost = before !== this.#workers && error instanceof EngineError && error.kind === 'input';
      if (!lost) throw error;
      return work();
    }
  }

  async #id(photo: OpenPhoto, options?: CallOptions): Promise<number> {
    const entry = this.#files.get(photo.handle);
    if (!entry) throw new EngineError('input', `${photo.name} is no longer open.`);
    entry.id ??= (await this.#client.call('open', [entry.file], options)).id;
    return entry.id;
  }
}
