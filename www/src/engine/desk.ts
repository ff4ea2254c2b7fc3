/**
 * Open photos by handles that outlive the worker, and the calls about them. The worker's name of a
 * photo is looked up when a call is sent: while it waits, the worker may be lost and another begin.
 */
import type { Calls } from '../worker/protocol';
import { WorkerClient, type CallOptions, type WorkerLike } from './client';
import { fingerprint } from './fingerprint';
import { Held } from './held';
import { AbsentError, emptyPicture, sameScene, scaledScene } from './absent';
import { StainCalls } from './stain_calls';
import {
  EngineError, type Colour, type ColourPair, type Difference, type Found, type FoundRegion, type Guide, type LightCheck, type Patch, type PhotoInfo, type Point, type Preview, type Rect, type Report,
  type Scene, type SwatchBook, type ZonePlan,
} from './types';

export interface OpenPhoto {
  readonly handle: number;
  readonly name: string;
  /** The same for the same bytes under any name. */
  readonly print: string;
  readonly info: PhotoInfo;
  readonly checks: LightCheck[];
  /** Its picture is not here, or only a reduced copy that says nothing about colour: the reading that was kept stands. */
  readonly kept?: KeptPhotoReading | undefined;
}

/** Of a photo whose case came without it, or without its partner. */
export interface KeptPhotoReading {
  readonly report: Report | undefined;
  /** How large the copy for the eye is, in each direction, against the photo: 1 for the photo itself, 0 when there is none. */
  readonly scale: number;
  /** Of the file that the reading was made from. */
  readonly sha256?: string | undefined;
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

function notACopy({ kept }: OpenPhoto): void {
  if (kept && kept.scale !== 1) throw new AbsentError();
}

/** What was kept holds for the scene it was read from. */
function keptReport({ report }: KeptPhotoReading, scene: Scene): Report {
  if (!report || !sameScene(report.scene, scene)) throw new AbsentError();
  return report;
}

export class Desk {
  readonly #client: WorkerClient<Calls>;
  readonly #held: Held;
  /** What needs no photo. */
  readonly stains: StainCalls;
  #next = 1;
  /** The guide the worker has; `null` for its default one. */
  #guide: Guide | null = null;

  constructor(makeWorker: () => WorkerLike) {
    this.#client = new WorkerClient<Calls>(makeWorker, () => {
      this.#held.workerLost();
      this.#guide = null;
    });
    this.#held = new Held(this.#client);
    this.stains = new StainCalls(this.#client);
  }

  async open(file: Blob, name: string, options: CallOptions & { tooLarge: string }): Promise<OpenPhoto> {
    if (file.size > MAX_FILE_BYTES) throw new EngineError('too-large', options.tooLarge);
    const handle = this.#next++;
    try {
      const [{ info, checks }, print] = await Promise.all([this.#held.add(handle, file, options), fingerprint(file)]);
      return { handle, name, print, info, checks };
    } catch (error) {
      this.#held.remove(handle);
      throw error;
    }
  }

  /** A photo that was opened before, and is known: nothing is decoded until something is asked about it. */
  adopt(file: Blob | null, known: Omit<OpenPhoto, 'handle'>): OpenPhoto {
    const handle = this.#next++;
    this.#held.adopt(handle, file);
    return { ...known, handle };
  }

  /** The file it was opened from; `null` when only its reading is here. */
  fileOf(photo: OpenPhoto): Blob | null {
    return this.#held.fileOf(photo);
  }

  close({ handle }: OpenPhoto): void {
    this.#held.remove(handle);
  }

  defaultGuide(): Promise<Guide> {
    return this.#client.call('guide', []);
  }

  /** Checks a guide; gives it as the engine understood it. */
  checkGuide(guide: Guide): Promise<Guide> {
    return this.#held.inTurn(async () => (this.#guide = await this.#client.call('set_guide', [guide])));
  }

  preview(photo: OpenPhoto, maxPx: number, options?: CallOptions): Promise<Preview> {
    if (photo.kept?.scale === 0) return Promise.resolve(emptyPicture(photo.info));
    return this.#about(photo, options, (id) => this.#client.call('preview', () => [id(), maxPx], options), true);
  }

  /** The same photo gives the same: it is looked for once. */
  async find(photo: OpenPhoto, options?: CallOptions): Promise<Found> {
    notACopy(photo);
    const call = () => this.#held.ensure(photo, options).then(() => this.#client.call('find', () => [this.#held.id(photo)], options));
    return this.#held.inTurn(async () => this.#held.entry(photo).found ?? (this.#held.entry(photo).found = await call()), options);
  }

  outlineChoices(photo: OpenPhoto, tap: Point, options?: CallOptions): Promise<FoundRegion[]> {
    return this.#about(photo, options, (id) => this.#client.call('outline_choices', () => [id(), tap], options));
  }

  cutOutline(photo: OpenPhoto, outline: Point[], stroke: Point[], options?: CallOptions): Promise<FoundRegion[]> {
    return this.#about(photo, options, (id) => this.#client.call('cut_outline', () => [id(), outline, stroke], options));
  }

  outlineCard(photo: OpenPhoto, tap: Point, options?: CallOptions): Promise<Point[]> {
    return this.#about(photo, options, (id) => this.#client.call('outline_card', () => [id(), tap], options));
  }

  outlineCardIn(photo: OpenPhoto, box: Rect, options?: CallOptions): Promise<Point[]> {
    return this.#about(photo, options, (id) => this.#client.call('outline_card_in', () => [id(), box], options));
  }

  straightened(photo: OpenPhoto, scene: Scene, region: string, heightPx: number, options?: CallOptions): Promise<Preview> {
    const inCopy = scaledScene(scene, photo.kept?.scale ?? 1);
    return this.#about(photo, options, (id) => this.#client.call('straightened', () => [id(), inCopy, region, heightPx], options), true);
  }

  async read(wanted: ReadRequest, options?: CallOptions): Promise<Report> {
    const { kept } = wanted.photo;
    if (kept) return keptReport(kept, wanted.scene);
    return this.#with(wanted, options, (id) => this.#client.call('read', () => [id(), wanted.scene, { target: wanted.target }], options));
  }

  glareMap(wanted: ReadRequest, maxPx: number, options?: CallOptions): Promise<Preview> {
    return this.#with(wanted, options, (id) => this.#client.call('glare_map', () => [id(), wanted.scene, maxPx], options));
  }

  /** A region as a plan predicts it, turned upright. */
  plannedPicture(wanted: ReadRequest, { region, book, zones }: Planned, heightPx: number, options?: CallOptions): Promise<Preview> {
    return this.#with(wanted, options, (id) => this.#client.call('planned_picture', () => [id(), wanted.scene, region, book, zones, heightPx], options));
  }

  /** The same, to lay over the photo. */
  plannedPatch(wanted: ReadRequest, { region, book, zones }: Planned, maxPx: number, options?: CallOptions): Promise<Patch> {
    return this.#with(wanted, options, (id) => this.#client.call('planned_patch', () => [id(), wanted.scene, region, book, zones, maxPx], options));
  }

  /** Where a region is uneven, to lay over the photo. */
  evennessMap(wanted: ReadRequest, region: string, maxPx: number, options?: CallOptions): Promise<Patch> {
    return this.#with(wanted, options, (id) => this.#client.call('evenness_map', () => [id(), wanted.scene, region, maxPx], options));
  }

  /** Where a region differs from another one of the same photo, each third against the same third; to lay over the photo. */
  differenceMap(wanted: ReadRequest, region: string, target: string, maxPx: number, options?: CallOptions): Promise<Patch> {
    return this.#with(wanted, options, (id) => this.#client.call('difference_map', () => [id(), wanted.scene, region, target, maxPx], options));
  }

  /** How plain colours differ, pair by pair, `to` − `from`; of any photos. At most 4096 pairs. */
  differences(pairs: ColourPair[], options?: CallOptions): Promise<Difference[]> {
    const numbers = ({ lab, doubt = NaN }: Colour) => [...lab, doubt];
    return this.#client.call('differences', [Float64Array.from(pairs.flatMap(({ from, to }) => [...numbers(from), ...numbers(to)]))], options);
  }

  /** Of a reduced copy only what is for the eye can be asked (`forTheEye`). */
  #about<T>(photo: OpenPhoto, options: CallOptions | undefined, call: (id: () => number) => Promise<T>, forTheEye = false): Promise<T> {
    return this.#held.inTurn(async () => {
      if (!forTheEye) notACopy(photo);
      await this.#held.ensure(photo, options);
      return call(() => this.#held.id(photo));
    }, options);
  }

  /** The worker has both photos, knows them for a pair, and has the guide. */
  #with<T>({ photo, polarised, guide }: ReadRequest, options: CallOptions | undefined, call: (id: () => number) => Promise<T>): Promise<T> {
    const held = this.#held;
    return held.inTurn(async () => {
      notACopy(photo);
      await held.ensure(photo, options);
      if (polarised) await held.ensure(polarised, options);
      if (guide !== this.#guide) {
        await this.#client.call('set_guide', [guide ?? undefined], options);
        this.#guide = guide;
      }
      const entry = held.entry(photo);
      const partner = polarised && held.id(polarised);
      if (entry.partner !== partner) {
        await this.#client.call('pair', () => [held.id(photo), partner], options);
        entry.partner = partner;
      }
      return call(() => held.id(photo));
    }, options);
  }
}
