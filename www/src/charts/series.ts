/** What the charts draw: one line per region, told apart by its stroke, never by colour. */
import type { GradientPoint, ZoneReading, ZoneReadings } from '../engine/types';

export type Role = 'target' | 'restoration' | 'tab';

export interface Series {
  id: string;
  name: string;
  role: Role;
  gradient: readonly GradientPoint[];
  zones: ZoneReadings;
  /** A place along the axis → its place on the sheet, where the zones are of one height. */
  place: (at: number) => number;
}

/** SVG dash patterns; the same samples stand in the heads of the pictures. */
export const STROKES: Record<Role, { dash: string | undefined; width: number }> = {
  target: { dash: undefined, width: 2.5 },
  restoration: { dash: '8 4', width: 2.5 },
  tab: { dash: '1 5', width: 2.5 },
};

export type Quantity = 'value' | 'chroma';

export const ofZone = (quantity: Quantity, reading: ZoneReading): number =>
  quantity === 'value' ? reading.lab[0] : reading.chroma;

/** Its ± beside the others of the same photo; in L* or in C*. */
export const doubtOf = (quantity: Quantity, reading: ZoneReading): number =>
  quantity === 'value' ? reading.doubt_l_in_photo : reading.doubt_c_in_photo;

export const ofPoint = (quantity: Quantity, { lab: [l, a, b] }: GradientPoint): number =>
  quantity === 'value' ? l : Math.hypot(a, b);
