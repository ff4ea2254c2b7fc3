/** What crosses between the page and the worker: requests one way, replies and phases the other. */
import type {
  Difference, ErrorKind, Fault, FittedBook, Found, FoundRegion, Guide, Opened, Pass, PassReview, Patch, Plan, PlanRequest, Point, PracticeRequest, PracticeScore, Prediction,
  PredictRequest, Preview, ReadOptions, Rect, Report, Scene, StatedScene, SwatchBook, UnfiredLook, UnfiredRequest, ZonePlan,
} from '../engine/types';

/** The calls the worker answers. Pixels stay there; a file goes in, previews and numbers come out. */
export interface Calls {
  open(file: Blob): Opened;
  preview(id: number, max_px: number): Preview;
  /** What there is at once for the eye: of a large JPEG a reduced picture, else the preview. */
  glimpse(id: number, max_px: number): Preview;
  /** The preview strip by strip, from above, so that others need not wait for all of it. */
  preview_strip(id: number, max_px: number, strip: number): Preview | undefined;
  close(id: number): void;
  outline_card(id: number, tap: Point): Point[];
  outline_card_in(id: number, box: Rect): Point[];
  /** Card, tabs and crowns, without a tap. */
  find(id: number): Found;
  /** The outlines that a tap can mean, the likeliest first. */
  outline_choices(id: number, tap: Point): FoundRegion[];
  /** The pieces that a stroke cuts an outline into, the largest first. */
  cut_outline(id: number, outline: Point[], stroke: Point[]): FoundRegion[];
  /** Without one the default guide comes back. */
  set_guide(guide: Guide | undefined): Guide;
  guide(): Guide;
  read(id: number, scene: Scene, options: ReadOptions): Report;
  /** How plain colours differ; no photo is needed. Eight numbers a pair: L*, a*, b*, doubt (NaN: not known) of `from`, then of `to`. */
  differences(numbers: Float64Array): Difference[];
  straightened(id: number, scene: Scene, region: string, height_px: number): Preview;
  pair(id: number, polarised_id: number | null): void;
  /** Where the plain photo of a pair shows glare, as grey with alpha in its frame. */
  glare_map(id: number, scene: Scene, max_px: number): Preview;
  /** Where a region is uneven, to lay over the photo. */
  evenness_map(id: number, scene: Scene, region: string, max_px: number): Patch;
  /** Where a region differs from a target in the same photo, to lay over the photo. */
  difference_map(id: number, scene: Scene, region: string, target: string, max_px: number): Patch;
  /** What one coat of each stain does, and what is odd about the swatches. */
  fit_swatches(book: SwatchBook): FittedBook;
  predict(book: SwatchBook, requests: PredictRequest[]): Prediction[];
  plan(book: SwatchBook, request: PlanRequest): Plan;
  /** A region as a plan predicts it: turned upright, or to lay over the photo. */
  planned_picture(id: number, scene: Scene, region: string, book: SwatchBook, zones: ZonePlan[], height_px: number): Preview;
  planned_patch(id: number, scene: Scene, region: string, book: SwatchBook, zones: ZonePlan[], max_px: number): Patch;
  review_pass(book: SwatchBook, pass: Pass): PassReview;
  look_unfired(book: SwatchBook, request: UnfiredRequest): UnfiredLook;
  score_practice(request: PracticeRequest): PracticeScore;
  /** Bytes of the program's memory, which never shrinks. For `cargo xtask bench`. */
  memory(): number;
}

export type CallName = keyof Calls;

/** What the generated engine has to be for that: type checking fails when the two drift apart. */
export type Answers = { [K in Exclude<CallName, 'open' | 'memory'>]: (...args: AsStated<Parameters<Calls[K]>>) => unknown };

/** A scene without a card: `null` on the page and in files, missing in the bindings' words. */
type AsStated<T> = { [I in keyof T]: T[I] extends Scene ? StatedScene : T[I] };

export interface Request<Name extends string = CallName> {
  id: number;
  call: Name;
  args: unknown[];
}

export type Reply =
  /** Held by the worker as long as it lives. */
  | { id: 0; kind: 'alive'; lock: string }
  | { id: number; kind: 'phase'; phase: Phase }
  | { id: number; kind: 'value'; value: unknown }
  | { id: number; kind: 'error'; error: { kind: ErrorKind; message: string; fault?: Fault }; broken: boolean };

/** What the worker is busy with inside one call. */
export type Phase = 'loading-program' | 'reading-file' | 'decoding' | 'working';
