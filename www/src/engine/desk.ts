/**
 * Open photos by handles that outlive the worker, and the calls about them. The worker's name of a
 * photo is looked up when a call is sent: while it waits, the worker may be lost and another begin.
 * The photo that is looked at is at home in the front reader; of the others a helper reads some.
 */
import { emptyPicture, keptReport, notACopy, scaledScene } from './absent';
import type { CallOptions, Lane, WorkerLike } from './client';
import { Files } from './files';
import { fingerprint } from './fingerprint';
import { unlessAborted } from './held';
import { Reader } from './reader';
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

/** A pair that is looked at, and one more. */
const MAX_DECODED = 3;
/** Where there is a helper, which never has a pair, one of them is there. */
const MAX_BY_HELPER = 1;

export class Desk {
  readonly #files = new Files();
  readonly #front: Reader;
  #helper: Reader | null = null;
  /** What needs no photo. */
  readonly stains: StainCalls;
  #next = 1;

  /** `lanes`: whether photos that nobody waits for may be read by a second worker. */
  constructor(
    private readonly makeWorker: (lane: Lane) => WorkerLike,
    readonly lanes: readonly Lane[] = ['front'],
  ) {
    this.#front = new Reader(() => makeWorker('front'), this.#files, MAX_DECODED);
    this.stains = new StainCalls(this.#front.client);
  }

  #reader(by?: Lane): Reader {
    if (by !== 'helper') return this.#front;
    this.#helper ??= new Reader(() => this.makeWorker('helper'), this.#files, MAX_BY_HELPER);
    this.#front.held.hold(MAX_DECODED - MAX_BY_HELPER);
    return this.#helper;
  }

  /** Ends the second worker; the next call that is for it begins another. */
  restHelper(): void {
    this.#helper?.client.rest();
    this.#front.held.hold(MAX_DECODED);
  }

  /** Who has it decoded. */
  laneOf(photo: OpenPhoto): Lane | null {
    const filed = this.#files.of(photo);
    return this.#front.held.has(filed) ? 'front' : this.#helper?.held.has(filed) ? 'helper' : null;
  }

  /** What is asked of the front by those who wait: for how long nothing was, and whether it waits for work that nobody waits for. */
  get front(): { readonly quietMs: number; readonly keepsWaiting: boolean } {
    return this.#front.held;
  }

  async open(file: Blob, name: string, options: CallOptions & { tooLarge: string }): Promise<OpenPhoto> {
    if (file.size > MAX_FILE_BYTES) throw new EngineError('too-large', options.tooLarge);
    const handle = this.#next++;
    try {
      const [{ info, checks }, print] = await Promise.all([this.#reader(options.by).held.open(this.#files.add(handle, file), options), fingerprint(file)]);
      return { handle, name, print, info, checks };
    } catch (error) {
      this.#remove(handle);
      throw error;
    }
  }

  /** A photo that was opened before, and is known: nothing is decoded until something is asked about it. */
  adopt(file: Blob | null, known: Omit<OpenPhoto, 'handle'>): OpenPhoto {
    const handle = this.#next++;
    this.#files.add(handle, file);
    return { ...known, handle };
  }

  /** The file it was opened from; `null` when only its reading is here. */
  fileOf(photo: OpenPhoto): Blob | null {
    return this.#files.of(photo).file;
  }

  close({ handle }: OpenPhoto): void {
    this.#remove(handle);
  }

  #remove(handle: number): void {
    const filed = this.#files.remove(handle);
    if (filed) for (const reader of [this.#front, this.#helper]) reader?.held.close(filed);
  }

  defaultGuide(): Promise<Guide> {
    return this.#front.client.call('guide', []);
  }

  /** Checks a guide; gives it as the engine understood it. */
  checkGuide(guide: Guide): Promise<Guide> {
    return this.#front.checkGuide(guide);
  }

  preview(photo: OpenPhoto, maxPx: number, options?: CallOptions): Promise<Preview> {
    if (photo.kept?.scale === 0) return Promise.resolve(emptyPicture(photo.info));
    const reader = this.#reader(options?.by);
    return reader.about(photo, options, (id) => reader.client.call('preview', () => [id(), maxPx], options), true);
  }

  /** What there is at once for the eye, at most as large as a preview. */
  glimpse(photo: OpenPhoto, maxPx: number, options?: CallOptions): Promise<Preview> {
    if (photo.kept?.scale === 0) return Promise.resolve(emptyPicture(photo.info));
    return this.#front.about(photo, options, (id) => this.#front.client.call('glimpse', () => [id(), maxPx], options), true);
  }

  /** One strip of a preview, from above; nothing after the last. */
  previewStrip(photo: OpenPhoto, maxPx: number, strip: number, options?: CallOptions): Promise<Preview | undefined> {
    return this.#front.about(photo, options, (id) => this.#front.client.call('preview_strip', () => [id(), maxPx, strip], options), true);
  }

  /** The same photo gives the same: it is looked for once. */
  async find(photo: OpenPhoto, options?: CallOptions): Promise<Found> {
    notACopy(photo);
    const filed = this.#files.of(photo);
    const reader = this.#reader(options?.by);
    // The other reader may be at it.
    if (filed.searching) await unlessAborted(filed.searching.catch(() => {}), options?.signal);
    return reader.held.inTurn(async () => {
      if (filed.found) return filed.found;
      await reader.held.ensure(photo, options);
      const searching = reader.client.call('find', () => [reader.held.id(photo)], options);
      filed.searching = searching;
      try {
        return (filed.found = await searching);
      } finally {
        filed.searching = null;
      }
    }, options);
  }

  outlineChoices(photo: OpenPhoto, tap: Point, options?: CallOptions): Promise<FoundRegion[]> {
    return this.#front.about(photo, options, (id) => this.#front.client.call('outline_choices', () => [id(), tap], options));
  }

  cutOutline(photo: OpenPhoto, outline: Point[], stroke: Point[], options?: CallOptions): Promise<FoundRegion[]> {
    return this.#front.about(photo, options, (id) => this.#front.client.call('cut_outline', () => [id(), outline, stroke], options));
  }

  outlineCard(photo: OpenPhoto, tap: Point, options?: CallOptions): Promise<Point[]> {
    return this.#front.about(photo, options, (id) => this.#front.client.call('outline_card', () => [id(), tap], options));
  }

  outlineCardIn(photo: OpenPhoto, box: Rect, options?: CallOptions): Promise<Point[]> {
    return this.#front.about(photo, options, (id) => this.#front.client.call('outline_card_in', () => [id(), box], options));
  }

  straightened(photo: OpenPhoto, scene: Scene, region: string, heightPx: number, options?: CallOptions): Promise<Preview> {
    const inCopy = scaledScene(scene, photo.kept?.scale ?? 1);
    return this.#front.about(photo, options, (id) => this.#front.client.call('straightened', () => [id(), inCopy, region, heightPx], options), true);
  }

  async read(wanted: ReadRequest, options?: CallOptions): Promise<Report> {
    const { kept } = wanted.photo;
    if (kept) return keptReport(kept, wanted.scene);
    // A pair takes the room of two.
    const reader = this.#reader(wanted.polarised ? 'front' : options?.by);
    return reader.with(wanted, options, (id) => reader.client.call('read', () => [id(), wanted.scene, { target: wanted.target }], options));
  }

  glareMap(wanted: ReadRequest, maxPx: number, options?: CallOptions): Promise<Preview> {
    return this.#front.with(wanted, options, (id) => this.#front.client.call('glare_map', () => [id(), wanted.scene, maxPx], options));
  }

  /** A region as a plan predicts it, turned upright. */
  plannedPicture(wanted: ReadRequest, { region, book, zones }: Planned, heightPx: number, options?: CallOptions): Promise<Preview> {
    return this.#front.with(wanted, options, (id) => this.#front.client.call('planned_picture', () => [id(), wanted.scene, region, book, zones, heightPx], options));
  }

  /** The same, to lay over the photo. */
  plannedPatch(wanted: ReadRequest, { region, book, zones }: Planned, maxPx: number, options?: CallOptions): Promise<Patch> {
    return this.#front.with(wanted, options, (id) => this.#front.client.call('planned_patch', () => [id(), wanted.scene, region, book, zones, maxPx], options));
  }

  /** Where a region is uneven, to lay over the photo. */
  evennessMap(wanted: ReadRequest, region: string, maxPx: number, options?: CallOptions): Promise<Patch> {
    return this.#front.with(wanted, options, (id) => this.#front.client.call('evenness_map', () => [id(), wanted.scene, region, maxPx], options));
  }

  /** Where a region differs from another one of the same photo, each third against the same third; to lay over the photo. */
  differenceMap(wanted: ReadRequest, region: string, target: string, maxPx: number, options?: CallOptions): Promise<Patch> {
    return this.#front.with(wanted, options, (id) => this.#front.client.call('difference_map', () => [id(), wanted.scene, region, target, maxPx], options));
  }

  /** How plain colours differ, pair by pair, `to` − `from`; of any photos. At most 4096 pairs. */
  differences(pairs: ColourPair[], options?: CallOptions): Promise<Difference[]> {
    const numbers = ({ lab, doubt = NaN }: Colour) => [...lab, doubt];
    return this.#front.client.call('differences', [Float64Array.from(pairs.flatMap(({ from, to }) => [...numbers(from), ...numbers(to)]))], options);
  }
}
