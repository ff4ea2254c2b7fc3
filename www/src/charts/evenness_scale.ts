/** How uneven a surface is, in steps that words stand for, and where a figure lies on the map's scale. */
import { ACCEPTABILITY_DELTA_E_00, PERCEPTIBILITY_DELTA_E_00 } from './ladder_layout';

/** The maps are at their full black or white here, ΔE00: as the engine makes them. */
export const FULL_OF_MAP = { uneven: 3, differing: 6 };

export const EVENNESS = ['even', 'little', 'patchy'] as const;
export type Evenness = (typeof EVENNESS)[number];

/**
 * The blotch is what a place usually differs by from the smooth course around it; the two
 * thresholds say whether that is seen, and whether it disturbs.
 */
export const evennessOf = (blotch_delta_e_00: number): Evenness =>
  blotch_delta_e_00 < PERCEPTIBILITY_DELTA_E_00 ? 'even' : blotch_delta_e_00 < ACCEPTABILITY_DELTA_E_00 ? 'little' : 'patchy';
