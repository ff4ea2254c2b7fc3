import { describe, expect, it } from 'vitest';
import { AxisCurve } from '../src/charts/axis_curve';
import { curveLayout, MIN_SPAN } from '../src/charts/curve_layout';
import type { Series } from '../src/charts/series';
import type { ZoneReading } from '../src/engine/types';
import { elementsOf } from './vnodes';

const zone = (l: number, b: number): ZoneReading => ({
  lab: [l, 0, b], chroma: b, hue_deg: 90, doubt: 0.5, doubt_in_photo: 0.3, doubt_l_in_photo: 0.25, doubt_c_in_photo: 0.2, pixels: 100, glare: 0, glare_value: 0.3, glare_measured: false, whiteness: 0,
});

const series = (id: string, role: Series['role'], l: number): Series => ({
  id,
  name: id,
  role,
  gradient: [0.05, 0.5, 0.95].map((at) => ({ at, lab: [l - 4 * at, 0, 20 - 8 * at] })),
  place: (at) => at,
  zones: { cervical: zone(l - 0.6, 19), middle: zone(l - 2, 16), incisal: zone(l - 3.4, 13) },
});

const TOOTH = series('tooth', 'target', 74);
const CROWN = series('crown', 'restoration', 78);
const pointsOf = (d: string) => [...d.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);

describe('a curve along the axis', () => {
  it('lies where its zones lie on the sheet, when they are not even thirds', () => {
    const [own] = curveLayout([{ ...TOOTH, place: (at) => at / 2 }], 'value', 140, 300).paths;
    expect(pointsOf(own!.d).at(-1)![1]).toBeCloseTo(142.5);
  });

  it('runs from the cervical end above to the incisal end below, lighter to the right', () => {
    const { paths } = curveLayout([TOOTH, CROWN], 'value', 140, 300);
    const tooth = pointsOf(paths[0]!.d);
    const crown = pointsOf(paths[1]!.d);
    expect(tooth[0]![1]).toBeCloseTo(15);
    expect(tooth.at(-1)![1]).toBeCloseTo(285);
    expect(tooth[0]![0]).toBeGreaterThan(tooth.at(-1)![0]);
    expect(crown[0]![0]).toBeGreaterThan(tooth[0]![0]);
  });

  it('puts the number of each third in the middle of that third, smaller left, larger right', () => {
    const { labels } = curveLayout([TOOTH, CROWN], 'value', 140, 300);
    expect(labels.map((l) => [l.text, l.anchor, l.y])).toEqual([
      ['73.4', 'end', 50], ['77.4', 'start', 50],
      ['72.0', 'end', 150], ['76.0', 'start', 150],
      ['70.6', 'end', 250], ['74.6', 'start', 250],
    ]);
  });

  it('leaves out the number of a third without a reading', () => {
    const { labels } = curveLayout([{ ...TOOTH, zones: { middle: zone(72, 16) } }], 'chroma', 140, 300);
    expect(labels.map((l) => l.text)).toEqual(['16.0']);
  });

  it('does not blow up a flat course', () => {
    const flat = { ...TOOTH, gradient: [0, 1].map((at) => ({ at, lab: [70 + 0.2 * at, 0, 15] as [number, number, number] })) };
    const [[x0], [x1]] = pointsOf(curveLayout([flat], 'value', 140, 300).paths[0]!.d) as [readonly [number, number], readonly [number, number]];
    expect(Math.abs(x1 - x0)).toBeLessThan((0.25 / MIN_SPAN.value) * 140);
  });

  it('draws nothing of nothing', () => {
    expect(curveLayout([], 'value', 140, 300)).toEqual({ bands: [], paths: [], labels: [], ticks: [] });
  });

  it('is drawn as one labelled picture with a stroke per role', () => {
    const all = elementsOf(<AxisCurve series={[TOOTH, CROWN]} quantity="value" width={140} height={300} label="Value" />);
    expect(all[0]).toMatchObject({ type: 'svg', props: { role: 'img', 'aria-label': 'Value' } });
    const curves = all.filter((e) => String(e.props['class']).startsWith('curve'));
    expect(new Set(curves.map((c) => c.props['stroke-dasharray'])).size).toBe(2);
    expect(curves.every((c) => c.props['stroke'] === undefined)).toBe(true);
  });
});
