import { describe, expect, it } from 'vitest';
import type { Lab, Plan, Report, Zone } from '../src/engine/types';
import { apart, carried, spotsOf, type ByThird, type Spot } from '../src/state/passes/frame';
import type { KeptPass, KeptUnfired } from '../src/state/passes/kept_pass';
import { holds, withoutSwatches, withSwatches } from '../src/state/passes/learned';
import { isStart, nextZones, paintedOf, passOf, startsFrom, swatchesOf, targetDrift, unfiredOf } from '../src/state/passes/pass_model';
import type { WorkZone } from '../src/state/stains/work';
import { USUAL_LIMITS } from '../src/state/stains/stains_doc';

const spot = (lab: Lab, blotch?: number): Spot => ({ lab, doubt: 2.7, doubt_in_photo: 1.2, ...(blotch !== undefined && { blotch }) });

const ZONES: WorkZone[] = [
  { zone: 'cervical', from: [78, 0.2, 14.8], to: [74.3, 1.8, 19.2], doubt: 1.7, blotch: 0.5 },
  { zone: 'middle', from: [78.1, 0, 15.2], to: [75.5, 0.9, 16.7], doubt: 1.7 },
];

const zonePlan = (zone: Zone, from: Lab, firings: number): Plan['zones'][number] => ({
  zone, from, to: [74, 1, 18], paint: { mix: [{ stain: 'ochre', parts: 6 }, { stain: 'grey', parts: 4 }], coats: firings * 1.5 },
  predicted: { lab: [75, 1.5, 18.5], doubt: 0.9 }, before_delta_e_00: 3, after_delta_e_00: 0.5, verdict: 'not_seen', words: '', firings, opacity: 0.1,
});

const planOf = (firings: number): Plan => ({
  demo: true, limits: USUAL_LIMITS, firings, shortfalls: [], cautions: [],
  zones: [zonePlan('cervical', ZONES[0]!.from, firings), { ...zonePlan('middle', ZONES[1]!.from, 1), paint: { mix: [{ stain: 'grey', parts: 10 }], coats: 0.5 } }],
  steps: [
    { kind: 'paint', firing: 1, zones: ['middle', 'cervical'], paint: { mix: [{ stain: 'ochre', parts: 10 }], coats: 1.5 }, title: '', stroke: '', look: '', expect: [{ lab: [1, 1, 1], doubt: 1 }, { lab: [76, 1, 17], doubt: 0.7 }] },
    { kind: 'paint', firing: 2, zones: ['cervical'], paint: { mix: [{ stain: 'grey', parts: 10 }], coats: 1 }, title: '', stroke: '', look: '', expect: [{ lab: [75, 1.5, 18.5], doubt: 0.9 }] },
  ],
});

describe('what is painted for the first firing', () => {
  it('is all of a plan of one firing', () => {
    expect(paintedOf(planOf(1)).map(({ zone, paint, predicted }) => [zone, paint.coats, predicted.lab[0]])).toEqual([['cervical', 1.5, 75], ['middle', 0.5, 75]]);
  });

  it('is the first step of a third that needs two, and the whole of one that needs one', () => {
    const [cervical, middle] = paintedOf(planOf(2));
    expect(cervical).toEqual({ zone: 'cervical', paint: { mix: [{ stain: 'ochre', parts: 10 }], coats: 1.5 }, predicted: { lab: [76, 1, 17], doubt: 0.7 } });
    expect(middle!.paint.coats).toBe(0.5);
  });
});

/** The second photo reads everything two L* darker. */
const darker = ([l, a, b]: Lab): Lab => [l - 2, a, b];
const SEEN = {
  restoration: { cervical: spot(darker([75, 1.4, 18.6]), 0.9), middle: spot(darker([76, 0.8, 16.5])) },
  target: { cervical: spot(darker(ZONES[0]!.to)), middle: spot(darker(ZONES[1]!.to)) },
};

describe('a pass from a photo', () => {
  const made = passOf(ZONES, paintedOf(planOf(1)), { ...USUAL_LIMITS, foundation: true }, SEEN);

  it('stands under the light of the photo that shows the result, by the target in it', () => {
    expect(made.carried).toBe(true);
    expect(made.pass.foundation).toBe(true);
    const [c] = made.pass.zones;
    expect(c!.before).toEqual([76, 0.2, 14.8].map((v) => expect.closeTo(v, 9)));
    expect(c!.predicted[0]).toBeCloseTo(73, 9);
    expect([c!.got, c!.target]).toEqual([SEEN.restoration.cervical.lab, SEEN.target.cervical.lab]);
    // In one photo most of the doubt is shared.
    expect(c!.doubt).toBeCloseTo(Math.hypot(1.2, 1.2), 9);
    expect(made.blotch).toEqual({ cervical: { before: 0.5, after: 0.9 }, middle: {} });
  });

  it('stands against the planned target where the photo shows none, with the doubt of two photos', () => {
    const bench = passOf(ZONES, paintedOf(planOf(1)), { ...USUAL_LIMITS, foundation: false }, { ...SEEN, target: {} });
    expect(bench.carried).toBe(false);
    expect(bench.pass.zones[0]).toMatchObject({ before: ZONES[0]!.from, target: ZONES[0]!.to, doubt: Math.SQRT2 * 2.7 });
    const exact = passOf(ZONES.map((z) => ({ ...z, doubt: 0 })), paintedOf(planOf(1)), { ...USUAL_LIMITS, foundation: false }, { ...SEEN, target: {} });
    expect(exact.pass.zones[0]!.doubt).toBe(2.7);
  });

  it('leaves out thirds that were not read', () => {
    const part = passOf(ZONES, paintedOf(planOf(1)), { ...USUAL_LIMITS, foundation: false }, { restoration: { middle: SEEN.restoration.middle }, target: {} });
    expect(part.pass.zones.map((z) => z.zone)).toEqual(['middle']);
  });

  const unfired: KeptUnfired = {
    spots: { cervical: spot([80, 1, 16]) }, target: { cervical: spot([76.3, 1.8, 19.2]) },
    look: { directions_only: true, words: '', zones: [] }, photo: 'u.jpg', at: '2026-01-01T00:00:00Z',
  };

  it('becomes one swatch per painted third: mixes as shares, the unfired reading under the same light', () => {
    const swatches = swatchesOf(made.pass, ZONES, {}, unfired, (zone) => `pass 1, ${zone}`);
    expect(swatches).toEqual([
      { mix: { ochre: 0.6, grey: 0.4 }, coats: 1.5, base: made.pass.zones[0]!.before, after: made.pass.zones[0]!.got, unfired: [76, 1, 16].map((v) => expect.closeTo(v, 9)), doubt: made.pass.zones[0]!.doubt, note: 'pass 1, cervical' },
      { stain: 'grey', coats: 0.5, base: made.pass.zones[1]!.before, after: made.pass.zones[1]!.got, doubt: made.pass.zones[1]!.doubt, note: 'pass 1, middle' },
    ]);
    const bare = { ...made.pass, zones: made.pass.zones.map((z) => ({ ...z, paint: { mix: [], coats: 0 } })) };
    expect(swatchesOf(bare, ZONES, {}, null, String)).toEqual([]);
    // On a foundation the stains were not laid on the bare crown.
    expect(swatchesOf(made.pass, ZONES, { middle: [75, 0, 15] }, null, String).map((s) => s.base[0])).toEqual([made.pass.zones[0]!.before[0], 75]);
  });

  it('gives the start of the next one', () => {
    const kept = { ...made, review: {} as KeptPass['review'], swatches: [], photo: '', at: '' };
    const next = nextZones(kept);
    expect(next[0]).toEqual({ zone: 'cervical', from: SEEN.restoration.cervical.lab, to: SEEN.target.cervical.lab, doubt: made.pass.zones[0]!.doubt, blotch: 0.9 });
    expect([startsFrom(next, kept), startsFrom(ZONES, kept)]).toEqual([true, false]);
  });
});

describe('a photo before firing', () => {
  it('is compared under its own light, with the unevenness before', () => {
    const { zones } = unfiredOf(ZONES, paintedOf(planOf(1)), SEEN);
    expect(zones[0]).toMatchObject({ zone: 'cervical', unfired: SEEN.restoration.cervical.lab, predicted_doubt: 0.9, blotch_before: 0.5, blotch: 0.9 });
    expect(zones[0]!.before[0]).toBeCloseTo(76, 9);
    expect(zones[1]).not.toHaveProperty('blotch_before');
  });

  it('is told from the photo that the job began with', () => {
    const start: ByThird<Spot> = { cervical: spot(ZONES[0]!.from), middle: spot(ZONES[1]!.from) };
    expect([isStart(ZONES, { restoration: start, target: {} }), isStart(ZONES, SEEN), isStart([], SEEN)]).toEqual([true, false, false]);
    expect(targetDrift(ZONES, SEEN)).toBeCloseTo(2, 9);
    expect(targetDrift(ZONES, { ...SEEN, target: {} })).toBe(0);
  });
});

describe('readings of two photos', () => {
  it('are carried by what both say about the same thing', () => {
    expect(carried([70, 1, 20], [80, 0, 10], [79, 0.5, 12])).toEqual([69, 1.5, 22]);
    expect(apart(spot([0, 0, 0]), spot([0, 0, 0]))).toBeCloseTo(1.697, 3);
  });

  it('are none where a check forbids them', () => {
    const zones = { middle: { ...spot([70, 1, 20], 0.4), chroma: 20, hue_deg: 80, doubt_l_in_photo: 0.9, doubt_c_in_photo: 0.8, pixels: 1, glare: 0, glare_value: 0, glare_measured: false, whiteness: 1 } };
    const check = (region?: string) => ({ code: 'glare-heavy', severity: 'retake', text: '', remedy: '', ...(region && { region }) });
    const report = (checks: unknown[]) => ({ readings: [{ region: 'r', zones, gradient: [] }], checks }) as unknown as Report;
    expect(spotsOf(report([]), 'r')).toEqual({ middle: spot([70, 1, 20], 0.4) });
    for (const checks of [[check()], [check('r')]]) expect(spotsOf(report(checks), 'r')).toEqual({});
    expect([spotsOf(report([check('t')]), 'r').middle?.blotch, spotsOf(report([]), 'x')]).toEqual([0.4, {}]);
  });
});

describe('swatches of a pass in a book', () => {
  const a = { stain: 'ochre', coats: 1, base: [70, 1, 20] as Lab, after: [69, 2, 21] as Lab, note: 'pass 1, middle' };
  const b = { mix: { ochre: 0.6, grey: 0.4 }, coats: 2, base: [70, 1, 20] as Lab, after: [66, 2, 21] as Lab };
  const own = { stains: [], swatches: [{ ...a, note: 'tab 3' }] };

  it('go in and come out again, and leave the others', () => {
    const full = withSwatches(own, [a, b]);
    expect([holds(full, [a, b]), holds(own, [a]), holds(full, [])]).toEqual([true, false, false]);
    expect(withoutSwatches(full, [a, b])).toEqual(own);
  });

  it('are known whatever became of the order of their fields', () => {
    const turned = { note: '', after: b.after, base: b.base, coats: 2, mix: { grey: 0.4, ochre: 0.6 } };
    expect(holds({ stains: [], swatches: [turned] }, [b])).toBe(true);
  });
});
