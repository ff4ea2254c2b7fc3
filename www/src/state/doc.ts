/** What is on the desk and can be undone: photos, scene, the choice of target, the shade guide, stains. */
import type { OpenPhoto } from '../engine/desk';
import type { Guide, Point, Scene } from '../engine/types';
import { EMPTY_STAINS, type StainsDoc } from './stains/stains_doc';

/** What the search proposes and the user has not settled: regions by id, steps of the card. */
export interface Proposal {
  readonly restoration?: string;
  readonly target?: string;
  /** Neutral steps of the card, the lightest first; their printed values are not known. */
  readonly cardSteps?: Point[][];
}

export interface Doc {
  readonly photo: OpenPhoto | null;
  readonly polarised: OpenPhoto | null;
  readonly scene: Scene;
  /** The region that restorations are compared with; the engine chooses when unset. */
  readonly target: string | undefined;
  /** The shade guide the user chose; `null` for the one that comes with the program. */
  readonly guide: Guide | null;
  readonly proposal: Proposal;
  readonly stains: StainsDoc;
}

export const EMPTY_SCENE: Scene = { card: null, regions: [] };

export const EMPTY_DOC: Doc = { photo: null, polarised: null, scene: EMPTY_SCENE, target: undefined, guide: null, proposal: {}, stains: EMPTY_STAINS };

/** Whether two documents are read alike: stains change no reading. */
export const readAlike = (a: Doc, b: Doc): boolean => (Object.keys(a) as (keyof Doc)[]).every((key) => key === 'stains' || a[key] === b[key]);
