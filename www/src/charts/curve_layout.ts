/** Where the curves along the axis and their labels lie. The axis runs downwards, as the tooth does. */
import { area, curveMonotoneY, line } from 'd3-shape';
import { THIRDS } from '../engine/types';
import { fixed } from './format';
import { doubtOf, ofPoint, ofZone, type Quantity, type Role, type Series } from './series';
import { along, linear } from './linear';

/** A narrower span would blow noise up to a hill. */
export const MIN_SPAN: Record<Quantity, number> = { value: 10, chroma: 8 };
/** Room for the band on either side of the curves, and for a number. */
const BESIDE_CURVES_PX = 26;
const LABEL_PX = 36;
const BESIDE_PX = 7;

export interface CurveLayout {
  /** What the doubt leaves open on either side of each curve. */
  bands: { id: string; role: Role; d: string }[];
  paths: { id: string; role: Role; d: string }[];
  labels: { key: string; x: number; y: number; anchor: 'start' | 'end'; text: string; role: Role }[];
  ticks: { x: number; text: string }[];
}

export function curveLayout(series: readonly Series[], quantity: Quantity, width: number, height: number): CurveLayout {
  const values = series.flatMap((s) => s.gradient.map((p) => ofPoint(quantity, p)));
  if (values.length === 0) return { bands: [], paths: [], labels: [], ticks: [] };
  const [low, high] = spread(Math.min(...values), Math.max(...values), MIN_SPAN[quantity]);
  const x = linear([low, high], [BESIDE_CURVES_PX, width - BESIDE_CURVES_PX]);
  const draw = line<{ at: number; v: number }>((p) => x(p.v), (p) => p.at * height).curve(curveMonotoneY);
  const paths = series.map((s) => ({
    id: s.id,
    role: s.role,
    d: draw(s.gradient.map((p) => ({ at: s.place(p.at), v: ofPoint(quantity, p) }))) ?? '',
  }));
  const cover = area<{ at: number; v: number; by: number }>()
    .y((p) => p.at * height)
    .x0((p) => x(p.v - p.by))
    .x1((p) => x(p.v + p.by))
    .curve(curveMonotoneY);
  const bands = series.flatMap((s) => {
    const by = doubtAlong(s, quantity);
    return by ? [{ id: s.id, role: s.role, d: cover(s.gradient.map((p) => ({ at: s.place(p.at), v: ofPoint(quantity, p), by: by(s.place(p.at)) }))) ?? '' }] : [];
  });
  const ticks = x.ticks(2).map((t) => ({ x: x(t), text: fixed(t, 0) }));
  return { bands, paths, labels: labelsOf(series.slice(0, 2), quantity, x, width, height), ticks };
}

/** The doubt at a place of the sheet: that of each third in its middle, straight between them. */
function doubtAlong({ zones }: Series, quantity: Quantity): ((at: number) => number) | null {
  const known = THIRDS.flatMap((zone, i) => (zones[zone] ? [[(i + 0.5) / 3, doubtOf(quantity, zones[zone])] as const] : []));
  return known.length > 0 ? along(known) : null;
}

function spread(low: number, high: number, minimum: number): [number, number] {
  const missing = Math.max(0, minimum - (high - low)) / 2;
  return [low - missing, high + missing];
}

/** Two numbers per third at most – a third would hide the curves – beside theirs: the smaller on the left, the larger on the right. */
function labelsOf(series: readonly Series[], quantity: Quantity, x: (v: number) => number, width: number, height: number): CurveLayout['labels'] {
  return THIRDS.flatMap((zone, i) => {
    const found = series.flatMap((s) => {
      const reading = s.zones[zone];
      return reading ? [{ s, v: ofZone(quantity, reading) }] : [];
    });
    found.sort((a, b) => a.v - b.v);
    return found.map(({ s, v }, rank) => {
      const left = found.length > 1 ? rank === 0 : x(v) > width / 2;
      return {
        key: `${s.id} ${zone}`,
        role: s.role,
        x: left ? Math.max(LABEL_PX, x(v) - BESIDE_PX) : Math.min(width - LABEL_PX, x(v) + BESIDE_PX),
        y: ((i + 0.5) * height) / 3,
        anchor: left ? ('end' as const) : ('start' as const),
        text: fixed(v),
      };
    });
  });
}
