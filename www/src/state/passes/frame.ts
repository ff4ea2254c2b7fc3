/**
 * Readings of two photos brought under one light. What camera and card get wrong is shared by all
 * outlines of a photo, so a colour is carried from one photo to the other by what both say about
 * the same target. Pure.
 */
import { THIRDS, type Lab, type Report } from '../../engine/types';
import { retakeOf } from '../sheet_model';

export type Third = (typeof THIRDS)[number];
export type ByThird<T> = Partial<Record<Third, T>>;

/** What is kept of one third's reading. */
export interface Spot {
  readonly lab: Lab;
  /** ± of the colour itself, and of its comparison with others in its photo, ΔE00. */
  readonly doubt: number;
  readonly doubt_in_photo: number;
  readonly blotch?: number;
}

/** A region's thirds; none when it must not be trusted. */
export function spotsOf(report: Report, id: string | undefined): ByThird<Spot> {
  const zones = report.readings.find((r) => r.region === id)?.zones;
  if (!zones || retakeOf(report.checks) || retakeOf(report.checks, id)) return {};
  const spots: ByThird<Spot> = {};
  for (const zone of THIRDS) {
    const z = zones[zone];
    if (z) spots[zone] = { lab: z.lab, doubt: z.doubt, doubt_in_photo: z.doubt_in_photo, ...(z.blotch !== undefined && { blotch: z.blotch }) };
  }
  return spots;
}

/** A colour as it would read in a photo that reads `to` where its own reads `from`. */
export const carried = (lab: Lab, from: Lab, to: Lab): Lab => lab.map((v, i) => v + to[i]! - from[i]!) as Lab;

/** ± on the difference of two readings: of one photo, or of two. */
export const apart = (a: Spot, b: Spot): number => Math.hypot(a.doubt_in_photo, b.doubt_in_photo);

