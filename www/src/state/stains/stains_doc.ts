/** What is on the desk about stains. It is undone with everything else, and kept on the device. */
import type { PlanLimits, SwatchBook } from '../../engine/types';
import type { Exercise } from '../practice/exercise';
import type { Draft } from './draft';
import type { TypedPlan } from './typed_plan';
import type { Work } from './work';

export interface StainsDoc {
  /** The user's own stains. */
  readonly own: SwatchBook;
  /** In use instead of them: the demo's invented ones, or those that came with a case. They are looked at, not changed. */
  readonly lent: SwatchBook | null;
  /** A swatch that is being entered; it may wait half-finished for its result. */
  readonly draft: Draft | null;
  readonly limits: PlanLimits;
  /** From and to as they were typed; `null` when they come from the photo. */
  readonly typed: TypedPlan | null;
  /** The job at hand. */
  readonly work: Work | null;
  /** The exercise at hand. */
  readonly practice: Exercise | null;
}

export const EMPTY_BOOK: SwatchBook = { demo: false, stains: [], swatches: [] };

/** As the engine has them when nobody says otherwise. */
export const USUAL_LIMITS: PlanLimits = { coats_per_firing: 3, firings: 2, stains_per_mix: 2, stains: [], may_lighten: true, foundation: true };

export const EMPTY_STAINS: StainsDoc = { own: EMPTY_BOOK, lent: null, draft: null, limits: USUAL_LIMITS, typed: null, work: null, practice: null };

/** What stays when the case goes: the user's own, and the demo's while they are in use. */
export const withoutCase = (stains: StainsDoc): StainsDoc => ({ ...stains, work: null, typed: null, lent: stains.lent?.demo ? stains.lent : null });

/** The stains that plans are made with. */
export const bookInUse = ({ own, lent }: StainsDoc): SwatchBook => lent ?? own;
