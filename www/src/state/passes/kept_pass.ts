/** A fired pass, and a look before firing, as they are kept with their job. */
import type { Pass, PassReview, Swatch, UnfiredLook } from '../../engine/types';
import type { ByThird, Spot } from './frame';

/** What was read of what is painted and not fired yet. */
export interface KeptUnfired {
  readonly spots: ByThird<Spot>;
  /** The target in the same photo; by it the colours are carried to the next one. */
  readonly target: ByThird<Spot>;
  readonly look: UnfiredLook;
  readonly photo: string;
  readonly at: string;
}

export interface Blotches {
  readonly before?: number;
  readonly after?: number;
  readonly target?: number;
}

export interface KeptPass {
  readonly pass: Pass;
  readonly review: PassReview;
  /** Its thirds as swatches: what the strengths may learn from it. */
  readonly swatches: readonly Swatch[];
  /** Unevenness before and after, and of the target in the photo of the result, ΔE00. */
  readonly blotch: ByThird<Blotches>;
  /** The target was read in the same photo, and everything is stated under its light. */
  readonly carried: boolean;
  /** How far the target read from what the plan was made with, largest third, ΔE*ab. */
  readonly drift?: number;
  /** The photo that the result was read from. */
  readonly photo: string;
  /** When it was kept, ISO 8601. */
  readonly at: string;
}
