/**
 * The engine's plain data, as its bindings state it. Everything else imports it from here.
 * Fields that a file may leave out are always there in what the engine gives and the page holds.
 */
import type * as stated from '../../pkg/tabside.js';

export type {
  AnchorTab, CardStep, CheckCode, Colour, ColourPair, Difference, Facts, Found, FoundRegion, GradientPoint, Guide, GuideTab, GuideZones, Lab, Ladder, LightCheck, LightReport, Pair, PhotoInfo,
  Point, ReadOptions, Rect, RegionKind, RegionReading, Rung, RungBasis, Severity, SpaceSource, StainAdvice, StainDirection, Trust, Verdict,
  Zone, ZoneAdvice, ZoneReading, ZoneReadings,
} from '../../pkg/tabside.js';
export type {
  Feather, FittedBook, FiredShift, Paint, Pass, PassAdvice, PassReview, PassZone, PassZoneReview, PlanRequest, PlanStep, PlanZone,
  PracticeRequest, PracticeScore, PracticeZone, PracticeZoneScore, Predicted, Prediction, PredictRequest, Share, Shortfall, ShortfallCode, StainInfo,
  StepKind, Strength, Swatch, SwatchCheck, SwatchCheckCode, UnfiredAdvice, UnfiredLook, UnfiredRequest, UnfiredZone, UnfiredZoneLook, ZonePlan,
} from '../../pkg/tabside.js';
export type { Opened, PatchPixels as Patch, PreviewPixels as Preview, Scene as StatedScene } from '../../pkg/tabside.js';

export interface Card extends stated.Card {
  outline: stated.Point[];
}

export interface Region extends stated.Region {
  name: string;
}

export interface SwatchBook extends stated.SwatchBook {
  stains: stated.StainInfo[];
}

export type PlanLimits = Required<stated.PlanLimits>;

export interface Plan extends stated.Plan {
  limits: PlanLimits;
}

/** Plain pixel (x, y, 1) → cross-polarised pixel, row by row. */
export type PairTransform = NonNullable<stated.Scene['pair_transform']>;

export interface Scene {
  card: Card | null;
  second_card?: Card;
  regions: Region[];
  cross_polarised?: boolean;
  pair_transform?: PairTransform;
}

export interface Report extends Omit<stated.Report, 'scene'> {
  scene: Scene;
}

/** Who can act on an error. */
export type ErrorKind = stated.EngineError['kind'];

/** What befell the program itself: the browser ended it, it never began, it got no memory, it broke down at its work. */
export type Fault = 'ended' | 'unstarted' | 'memory' | 'broken';

/** An error from the engine, with its own words; of a fault the page tells in words of its own. */
export class EngineError extends Error {
  override readonly name = 'EngineError';
  constructor(
    readonly kind: ErrorKind,
    message: string,
    readonly fault?: Fault,
  ) {
    super(message);
  }
}

/** Thirds from the cervical to the incisal end. */
export const THIRDS = ['cervical', 'middle', 'incisal'] as const satisfies readonly stated.Zone[];
export const ZONES = [...THIRDS, 'whole'] as const satisfies readonly stated.Zone[];
