/** How coats are drawn: a bar by length, cut where a firing ends, shared out among the stains of its mix. */
import { shortest } from './format';
import { THIRDS, type Paint, type Plan, type Zone } from '../engine/types';
import { linear } from './linear';

/** A bar is not drawn longer when there is little to paint. */
const MIN_SPAN_COATS = 2;
const END_PX = 12;

export interface CoatStrip {
  stain: string;
  /** Its place among the stains of the plan: which pattern it has. */
  pattern: number;
  /** Share of the bar's height, from the top. */
  from: number;
  to: number;
}

export interface CoatBar {
  zone: Zone;
  paint: Paint;
  width: number;
  strips: CoatStrip[];
  /** Where a firing ends within the bar. */
  cuts: number[];
  /** Coats of each firing that paints here. */
  firings: number[];
}

export interface CoatsLayout {
  bars: CoatBar[];
  ticks: { x: number; coats: number }[];
  /** Where the scale ends. */
  end: number;
}

const QUARTERS = ['', '¼', '½', '¾'];

/** Quarters as fractions. */
export function coatsText(coats: number): string {
  const quarters = Math.round(coats * 4);
  if (Math.abs(coats * 4 - quarters) > 0.02) return shortest(coats);
  const whole = Math.floor(quarters / 4);
  return `${whole || (quarters % 4 ? '' : '0')}${QUARTERS[quarters % 4]}`;
}

/** The stains of a plan in the order in which they first come up. */
export const stainsOf = ({ zones }: Plan): string[] => [...new Set(zones.flatMap((z) => z.paint.mix.map((s) => s.stain)))];

/** Coats that each firing lays on a third. */
export function firingsOf({ steps, firings }: Plan, zone: Zone): number[] {
  return Array.from({ length: firings }, (_, i) => steps.filter((s) => s.kind === 'paint' && s.firing === i + 1 && s.zones.includes(zone)).reduce((sum, s) => sum + (s.paint?.coats ?? 0), 0)).filter((c) => c > 0);
}

export function coatsLayout(plan: Plan, width: number): CoatsLayout {
  const most = Math.max(MIN_SPAN_COATS, ...plan.zones.map((z) => z.paint.coats));
  const x = linear([0, most], [0, Math.max(0, width - END_PX)]);
  const stains = stainsOf(plan);
  const bars = THIRDS.flatMap((zone) => {
    const found = plan.zones.find((z) => z.zone === zone);
    if (!found) return [];
    const { paint } = found;
    const parts = paint.mix.reduce((sum, s) => sum + s.parts, 0) || 1;
    let at = 0;
    const strips = paint.mix.map(({ stain, parts: n }) => ({ stain, pattern: stains.indexOf(stain), from: at, to: (at += n / parts) }));
    const firings = firingsOf(plan, zone);
    let laid = 0;
    const cuts = firings.slice(0, -1).map((coats) => x((laid += coats)));
    return [{ zone, paint, width: x(paint.coats), strips, cuts, firings }];
  });
  return { bars, ticks: Array.from({ length: Math.floor(most) + 1 }, (_, coats) => ({ coats, x: x(coats) })), end: x(most) };
}
