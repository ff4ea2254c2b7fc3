/** The plain data of a case file: `fixtures/schema/case.schema.json` and `verification.schema.json`. */
import type { Guide, Point, Report, Scene, SwatchBook } from './types';

/** The version of the case file that this program writes. */
export const CASE_VERSION = 1;

export type PhotoRole = 'plain' | 'cross-polarised-partner';
export type KeptAs = 'original' | 'reduced' | 'absent';

export interface KeptPhoto {
  /** Unique within the case. */
  id: string;
  name: string;
  role: PhotoRole;
  /** The id of its cross-polarised partner. */
  partner?: string;
  kept: KeptAs;
  /** The part of the file that holds its bytes. */
  part?: string;
  sha256?: string;
  /** What was removed from the photo before it was written, in plain words. */
  removed?: string[];
  scene: Partial<Scene>;
  /** The id of the region that restorations are compared with. */
  target?: string;
  /** What the search proposes and the user has not settled. */
  proposal?: { restoration?: string; target?: string; card_steps?: Point[][] };
  notes?: { id: string; at: Point; text: string }[];
  /** What was read when the case was written. */
  reading?: { report: Report };
}

export interface Case {
  version: number;
  /** Version of the program that wrote the file. */
  program: string;
  label?: string;
  /** ISO 8601 in UTC, like `changed`. */
  created: string;
  changed: string;
  photos: KeptPhoto[];
  /** The id of the photo that is looked at. */
  shown?: string;
  guide?: Guide;
  swatches?: SwatchBook;
  work?: unknown;
  /** What else the page keeps with a case, by name. */
  page?: Record<string, unknown>;
}

export interface CaseNote {
  code: 'newer-version' | 'part-not-understood' | 'brought-forward' | 'photo-no-picture';
  text: string;
  remedy: string;
}

export type Outcome = 'same' | 'rounded' | 'not-compared' | 'different';

export interface PhotoVerification {
  photo: string;
  name: string;
  outcome: Outcome;
  /** The largest ΔE00 between a zone's colour as kept and as derived. */
  largest_delta_e_00?: number;
  reasons?: { code: string; text: string }[];
  differences?: { place: string; kept: unknown; now: unknown }[];
  /** How many more there are. */
  further: number;
}

/** What is written as CGATS. */
export interface Colours extends Pick<Report, 'version' | 'scene' | 'readings' | 'checks'> {
  /** What the photo is called. */
  photo: string;
  /** ISO 8601. */
  created: string;
}

export interface ReadGuide {
  guide: Guide;
  /** What was assumed or changed, in plain words. */
  remarks: string[];
}
