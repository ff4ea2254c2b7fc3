/** How uneven a surface is, in steps that words stand for. */
import { ACCEPTABILITY_DELTA_E_00, PERCEPTIBILITY_DELTA_E_00 } from './ladder_layout';

export const EVENNESS = ['even', 'little', 'patchy'] as const;
export type Evenness = (typeof EVENNESS)[number];

/**
 * The blotch is what a place usually differs by from the smooth course around it; the two
 * thresholds say whether that is seen, and whether it disturbs.
 */
export const evennessOf = (blotch_delta_e_00: number): Evenness =>
  blotch_delta_e_00 < PERCEPTIBILITY_DELTA_E_00 ? 'even' : blotch_delta_e_00 < ACCEPTABILITY_DELTA_E_00 ? 'little' : 'patchy';
