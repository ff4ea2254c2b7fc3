/** A straight scale from a quantity to the drawing, and round places to mark on it. */
export interface Linear {
  (value: number): number;
  /** About so many round values within the span. */
  ticks(count: number): number[];
}

/** 1, 2 or 5 times a power of ten, nearest to the wanted step by its ratio. */
function roundStep(wanted: number): number {
  const power = 10 ** Math.floor(Math.log10(wanted));
  const share = wanted / power;
  return power * (share >= Math.sqrt(50) ? 10 : share >= Math.sqrt(10) ? 5 : share >= Math.sqrt(2) ? 2 : 1);
}

export function linear([low, high]: readonly [number, number], [from, to]: readonly [number, number]): Linear {
  const place = (value: number) => (high === low ? (from + to) / 2 : from + ((value - low) / (high - low)) * (to - from));
  const ticks = (count: number): number[] => {
    if (!(high > low && count > 0)) return [];
    const step = roundStep((high - low) / count);
    const first = Math.ceil(low / step);
    return Array.from({ length: Math.max(0, Math.floor(high / step) - first + 1) }, (_, i) => (first + i) * step);
  };
  return Object.assign(place, { ticks });
}

/** Straight from point to point, and level beyond the first and the last. Points rise in x. */
export function along(points: readonly (readonly [x: number, y: number])[]): (x: number) => number {
  return (x) => {
    const next = points.findIndex(([at]) => at >= x);
    const to = points[next < 0 ? points.length - 1 : next];
    const from = next > 0 ? points[next - 1] : to;
    if (!from || !to) return NaN;
    return from[0] === to[0] ? to[1] : from[1] + ((x - from[0]) / (to[0] - from[0])) * (to[1] - from[1]);
  };
}
