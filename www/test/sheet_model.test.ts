import { describe, expect, it } from 'vitest';
import type { LightCheck, Report, Scene } from '../src/engine/types';
import { groupChecks } from '../src/state/check_groups';
import { retakeOf, sheetModel, type Picks } from '../src/state/sheet_model';
import { Engine } from './fake_engine';
import { square } from './squares';

const region = (id: string, kind: 'tooth' | 'restoration' | 'tab', name = '') => ({ id, kind, name, outline: square(100, 100) });
const SCENE: Scene = {
  card: { outline: square(0, 0) },
  regions: [region('a1', 'tab', 'A1'), region('a2', 'tab', 'A2'), region('t', 'tooth'), region('c', 'restoration')],
};
const NONE: Picks = { target: undefined, restoration: null, tab: null };

function report(scene: Scene): Report {
  const engine = new Engine();
  return engine.read(engine.open(new Uint8Array([0xff])).id, scene, {});
}

const model = (picks: Partial<Picks> = {}, scene = SCENE, checks: LightCheck[] = []) =>
  sheetModel({ ...report(scene), checks }, scene, { ...NONE, ...picks }, (id) => id);

const retake = (region?: string): LightCheck => ({
  code: 'tooth-clipped', severity: 'retake', text: 'Too bright.', remedy: 'Again.', ...(region === undefined ? {} : { region }),
});

describe('the sheet', () => {
  it('shows tooth, restoration and the nearest tab of the photo, and the curves of all three', () => {
    const m = model();
    expect(m.pictures.map((p) => [p.region.id, p.role])).toEqual([['t', 'target'], ['c', 'restoration'], ['a1', 'tab']]);
    expect(m.series.map((s) => s.id)).toEqual(['t', 'c', 'a1']);
    expect(m.rows.map((r) => [r.zone, r.advice?.delta_e_00])).toEqual([['cervical', 2.4], ['middle', 1.4], ['incisal', 0.3999999999999999]]);
  });

  it('says with the nearest tab what has to be said about it', () => {
    const scene = { ...SCENE, regions: SCENE.regions.slice(0, 3) };
    const { ladders, ...rest } = report(scene);
    const noted = ladders.map((l) => (l.zone === 'middle' ? { ...l, note: 'between A1 and A2' } : l));
    const m = sheetModel({ ...rest, ladders: noted }, scene, NONE, (id) => id);
    expect(m.rows.map((r) => r.note)).toEqual([undefined, 'between A1 and A2', undefined]);
  });

  it('follows what was chosen', () => {
    expect(model({ target: 'a2', tab: 'a1' }).pictures.map((p) => p.region.id)).toEqual(['a2', 'c', 'a1']);
    expect(model({ target: 'gone' }).pictures[0]?.region.id).toBe('t');
  });

  it('shows the nearest tab per third when there is nothing to judge', () => {
    const scene = { ...SCENE, regions: SCENE.regions.slice(0, 3) };
    const m = model({}, scene);
    expect(m.pictures.map((p) => p.role)).toEqual(['target', 'tab']);
    expect(m.rows.every((r) => r.nearest?.rung.name === 'A1' && !r.advice)).toBe(true);
    expect(m.subject?.id).toBe('t');
  });

  it('gives no number of a region that is not to be trusted', () => {
    const m = model({}, SCENE, [retake('c')]);
    expect(m.series.map((s) => s.id)).toEqual(['t', 'a1']);
    expect(m.advice).toBeUndefined();
    expect(m.rows.every((r) => !r.advice)).toBe(true);
    expect(m.pictures).toHaveLength(3);
  });

  it('tells a finding about the photo from one about a region', () => {
    expect(retakeOf([retake('c')])).toBeUndefined();
    expect(retakeOf([retake('c')], 'c')).toBeTruthy();
    expect(retakeOf([retake()])).toBeTruthy();
    expect(retakeOf([{ ...retake(), severity: 'care' }])).toBeUndefined();
  });
});

describe('light checks', () => {
  it.each(['tab-contradicts', 'surface-unlike', 'blur', 'light-mixed'] as const)('about %s name every region they concern, once', (code) => {
    const about = (region: string): LightCheck => ({ ...retake(region), code, severity: 'care' });
    const groups = groupChecks([about('a1'), about('a2'), { ...about('a1'), code: 'tooth-small' }]);
    expect(groups.map((g) => [g.first.code, g.others.length])).toEqual([[code, 1], ['tooth-small', 0]]);
  });

  it('are shown once when they are the same about several regions, in the order they came', () => {
    const care: LightCheck = { ...retake('a1'), code: 'tooth-small', severity: 'care' };
    const groups = groupChecks([retake(), retake('c'), care, { ...care, region: 'a2' }, { ...retake('t') }]);
    expect(groups.map((g) => [g.first.code, g.first.region, g.others.map((o) => o.region)])).toEqual([
      ['tooth-clipped', undefined, []],
      ['tooth-clipped', 'c', ['t']],
      ['tooth-small', 'a1', ['a2']],
    ]);
  });
});
