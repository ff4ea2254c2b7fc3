/** Where the curves along the axis and their labels lie. The axis runs downwards, as the tooth does. */
import { scaleLinear } from 'd3-scale';
import { curveMonotoneY, line } from 'd3-shape';
import { THIRDS } from '../engine/types';
import { fixed } from './format';
import { ofPoint, ofZone, type Quantity, type Role, type Series } from './series';

/** A narrower span would blow noise up to a hill. */
export const MIN_SPAN: Record<Quantity, number> = { value: 10, chroma: 8 };
/** Room for a number on either side of the curves. */
const LABEL_PX = 43;
const BESIDE_PX = 7;

export interface CurveLayout {
  paths: { id: string; role: Role; d: string }[];
  labels: { key: string; x: number; y: number; anchor: 'start' | 'end'; text: string; role: Role }[];
  ticks: { x: number; text: string }[];
}

export function curveLayout(series: readonly Series[], quantity: Quantity, width: number, height: number): CurveLayout {
  const values = series.flatMap((s) => s.gradient.map((p) => ofPoint(quantity, p)));
  if (values.length === 0) return { paths: [], labels: [], ticks: [] };
  const [low, high] = spread(Math.min(...values), Math.max(...values), MIN_SPAN[quantity]);
  const x = scaleLinear([low, high], [LABEL_PX, width - LABEL_PX]);
  const draw = line<{ at: number; v: number }>((p) => x(p.v), (p) => p.at * height).curve(curveMonotoneY);
  const paths = series.map((s) => ({
    id: s.id,
    role: s.role,
    d: draw(s.gradient.map((p) => ({ at: s.place(p.at), v: ofPoint(quantity, p) }))) ?? '',
  }));
  const ticks = x.ticks(2).map((t) => ({ x: x(t), text: fixed(t, 0) }));
  return { paths, labels: labelsOf(series, quantity, x, width / 2, height), ticks };
}

function spread(low: number, high: number, minimum: number): [number, number] {
  const missing = Math.max(0, minimum - (high - low)) / 2;
  return [low - missing, high + missing];
}

/** Two numbers per third at most, beside their curves: the smaller on the left, the larger on the right. */
function labelsOf(series: readonly Series[], quantity: Quantity, x: (v: number) => number, middle: number, height: number): CurveLayout['labels'] {
  return THIRDS.flatMap((zone, i) => {
    const found = series.flatMap((s) => {
      const reading = s.zones[zone];
      return reading ? [{ s, v: ofZone(quantity, reading) }] : [];
    });
    found.sort((a, b) => a.v - b.v);
    return found.map(({ s, v }, rank) => {
      const left = found.length > 1 ? rank === 0 : x(v) > middle;
      return {
        key: `${s.id} ${zone}`,
        role: s.role,
        x: left ? x(v) - BESIDE_PX : x(v) + BESIDE_PX,
        y: ((i + 0.5) * height) / 3,
        anchor: left ? ('end' as const) : ('start' as const),
        text: fixed(v),
      };
    });
  });
}
