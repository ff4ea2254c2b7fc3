import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import { BAR_PX, CoatsBar } from '../src/charts/coats_bar';
import { coatsLayout, coatsText, firingsOf, stainsOf } from '../src/charts/coats_layout';
import { srgbOf } from '../src/charts/srgb';
import type { Lab, PlanStep, Report, SwatchBook, Zone, ZonePlan } from '../src/engine/types';
import { comparedZones } from '../src/state/stains/comparison';
import { sheetModel } from '../src/state/sheet_model';
import { EMPTY_TYPED, typedZones, unfinished } from '../src/state/stains/typed_plan';
import { USUAL_LIMITS } from '../src/state/stains/stains_doc';
import { findingsOf, inShort } from '../src/views/plan/findings';
import { expectTexts, featherText, lookHead, lookText } from '../src/views/plan/steps';
import { words } from '../src/words';
import { mixText, paintText } from '../src/views/plan/said';
import { Engine } from './fake_engine';
import { fakePlan } from './fake_stains';
import { square } from './squares';
import { elementsOf } from './vnodes';

const BOOK: SwatchBook = {
  demo: false,
  stains: [],
  swatches: [
    { stain: 'umbra', coats: 1, base: [78, 1, 16], after: [76.5, 1.6, 17.5] },
    { stain: 'rust', coats: 1, base: [78, 1, 16], after: [77, 2.5, 18] },
  ],
};
const PLAN = fakePlan(BOOK, { zones: [{ zone: 'cervical', from: [78, 0, 14], to: [70, 4, 24], doubt: 0.5 }, { zone: 'incisal', from: [76, 0, 13], to: [75.4, 0.2, 13.5], doubt: 0.5 }], limits: USUAL_LIMITS });

describe('a colour on the screen', () => {
  it('is that of another library, under D65', () => {
    const toRgb = converter('rgb');
    for (const lab of [[78, 1, 16], [50, 0, 0], [62, 8, 30], [90, -2, 4], [20, 3, -5]] as Lab[]) {
      const { r, g, b } = toRgb({ mode: 'lab65', l: lab[0], a: lab[1], b: lab[2] })!;
      const other = [r, g, b].map((v) => Math.round(255 * Math.min(Math.max(v, 0), 1)));
      srgbOf(lab).forEach((v, i) => expect(Math.abs(v - other[i]!)).toBeLessThanOrEqual(1));
    }
  });

  it('is clipped to what there is', () => expect(srgbOf([100, 80, 120]).every((v) => v >= 0 && v <= 255)).toBe(true));
});

describe('coats', () => {
  it('are told in quarters', () => {
    expect([0, 0.25, 0.5, 0.75, 1, 1.5, 2.25, 10].map(coatsText)).toEqual(['0', '¼', '½', '¾', '1', '1½', '2¼', '10']);
    expect(coatsText(1.1)).toBe('1.1');
  });

  it('are drawn by length on one scale, cut where a firing ends', () => {
    const { bars, ticks, end } = coatsLayout(PLAN, 200);
    const [cervical, incisal] = bars;
    expect(cervical!.paint.coats).toBeGreaterThan(3);
    expect(cervical!.width / incisal!.width).toBeCloseTo(cervical!.paint.coats / incisal!.paint.coats);
    expect(cervical!.width).toBeCloseTo(end);
    expect(end).toBeLessThan(200);
    expect(cervical!.firings).toEqual(firingsOf(PLAN, 'cervical'));
    expect(cervical!.firings.reduce((a, b) => a + b)).toBeCloseTo(cervical!.paint.coats);
    expect(cervical!.cuts[0]).toBeCloseTo(ticks[3]!.x);
    expect(incisal!.cuts).toEqual([]);
  });

  it('are shared out by the parts of the mix, each stain with one pattern everywhere', () => {
    const paint = { mix: [{ stain: 'umbra', parts: 6 }, { stain: 'rust', parts: 4 }], coats: 1.5 };
    const zone = (z: Partial<ZonePlan>) => ({ ...PLAN.zones[0]!, paint, ...z });
    const plan = { ...PLAN, zones: [zone({}), zone({ zone: 'incisal', paint: { mix: [{ stain: 'rust', parts: 10 }], coats: 1 } })] };
    expect(stainsOf(plan)).toEqual(['umbra', 'rust']);
    const { bars } = coatsLayout(plan, 200);
    expect(bars[0]!.strips.map((s) => [s.stain, s.from, s.to])).toEqual([['umbra', 0, 0.6], ['rust', 0.6, 1]]);
    expect(bars[0]!.strips[1]!.pattern).toBe(bars[1]!.strips[0]!.pattern);
    const drawn = elementsOf(<CoatsBar bar={bars[0]!} layout={coatsLayout(plan, 200)} width={200} label="x" />);
    expect(drawn.filter((e) => e.type === 'rect').map((e) => e.props['height'])).toEqual([0.6 * BAR_PX, expect.closeTo(0.4 * BAR_PX)]);
    expect(paintText(paint)).toBe('1½ coats 6 parts umbra + 4 parts rust');
    expect(mixText(plan.zones[1]!.paint)).toBe('rust');
    expect(paintText({ mix: [], coats: 0 })).toBe('Nothing to paint');
  });
});

describe('a step', () => {
  const step: PlanStep = {
    kind: 'paint', firing: 1, zones: ['cervical', 'middle'], feather: [{ into: 'incisal', share: 0.4 }], title: '', stroke: '', look: '',
    expect: [{ lab: [74, 1.26, -0.04], doubt: 0.9 }, { lab: [75, 1, 18], doubt: 1 }],
  };
  it('says how far it is thinned out and what each third should read', () => {
    expect(featherText(step)).toBe('over 40 % of the incisal third');
    expect(expectTexts(step)).toEqual(['Cervical: L* 74.0, a* 1.3, b* 0.0, ± 0.9 ΔE00', 'Middle: L* 75.0, a* 1.0, b* 18.0, ± 1.0 ΔE00']);
    expect(expectTexts({ ...step, zones: [] })).toEqual([]);
    expect([lookHead(step), lookHead({ ...step, kind: 'fire' })]).toEqual([words.plan.fired, words.plan.look]);
    expect(lookText({ ...step, look: 'Cervical third fired: L* 74.' })).toBe('Cervical third: L* 74.');
    expect([words.plan.still('lighter'), words.plan.still('no difference to speak of')]).toEqual(['still lighter than the target', 'no difference to speak of']);
    // Nothing is said twice.
    expect(featherText({ ...step, stroke: 'Thin, over 40 % of the edge.' })).toBe('');
    expect(expectTexts({ ...step, look: 'Fired: L* 74.' })).toEqual([]);
  });
});

describe('what cannot be reached', () => {
  const lighter = (zone: Zone, third: string, by: number) => ({ code: 'target-lighter' as const, zone, text: `${third}: the target is lighter by L* ${by}, and no stain lightens. It stays ΔE00 2.0 from its target.`, instead: ['Remake it.'] });
  const opaque = { code: 'opaque' as const, zone: 'middle' as const, text: 'Middle third: the coats throw back 9 % of the light.', instead: [] };

  it('is said once for all thirds that it is true of, with their numbers in order', () => {
    const found = findingsOf([lighter('incisal', 'Incisal third', 3.5), opaque, lighter('cervical', 'Cervical third', 2.1)]);
    expect(found.map((f) => [f.thirds, f.text])).toEqual([
      ['Cervical and incisal third', 'the target is lighter by L* 2.1 and 3.5, and no stain lightens. It stays ΔE00 2.0 from its target.'],
      ['Middle third', 'the coats throw back 9 % of the light.'],
    ]);
    // Another remedy is another finding.
    expect(findingsOf([lighter('middle', 'Middle third', 1), { ...lighter('incisal', 'Incisal third', 1), instead: [] }])).toHaveLength(2);
  });

  it('is told in one line; a price alone is no failure', () => {
    expect(inShort([])).toBe('');
    expect(inShort([lighter('middle', 'Middle third', 1), opaque])).toBe('1 third cannot reach its target; see below');
    expect(inShort([lighter('middle', 'Middle third', 1), lighter('incisal', 'Incisal third', 1)])).toBe('2 thirds cannot reach their target; see below');
    expect(inShort([opaque])).toBe('1 third has a price; see below');
  });
});

describe('where a plan comes from', () => {
  it('is what was read in both, third by third, with the unevenness there', () => {
    const engine = new Engine();
    const scene = { card: { outline: square(0, 0) }, regions: [{ id: 'r', kind: 'restoration' as const, name: '21', outline: square(100, 100) }, { id: 't', kind: 'tooth' as const, name: '11', outline: square(300, 100) }] };
    const report: Report = engine.read(engine.open(new Uint8Array([0xff])).id, scene, {});
    report.readings[0]!.zones.middle!.blotch = 0.7;
    delete report.readings[1]!.zones.incisal;
    const zones = comparedZones(report, sheetModel(report, scene, { target: 't', restoration: 'r', tab: null }, (id) => id));
    expect(zones.map((z) => z.zone)).toEqual(['cervical', 'middle']);
    expect(zones[1]).toEqual({ zone: 'middle', from: report.readings[0]!.zones.middle!.lab, to: report.readings[1]!.zones.middle!.lab, doubt: 0.4, blotch: 0.7 });
  });

  it('can be typed, third by third', () => {
    const typed = { ...EMPTY_TYPED, middle: { from: ['78', '0', '14'], to: ['74', '1', '18,5'] }, incisal: { from: ['78', '', ''], to: ['', '', ''] } } as const;
    expect(typedZones(typed)).toEqual([{ zone: 'middle', from: [78, 0, 14], to: [74, 1, 18.5], doubt: 0 }]);
    expect(unfinished(typed)).toEqual(['incisal']);
    expect(typedZones(EMPTY_TYPED)).toEqual([]);
  });
});
