import { describe, expect, it } from 'vitest';
import type { Difference, Guide, LightCheck, Region, Report, Scene } from '../src/engine/types';
import { anchored, asked, MAX_TABS, tabPairs, tabRows, toldAsGuide, type TabPair } from '../src/state/compare/tabs_check_model';
import { square } from './squares';

const tab = (name: string, i: number): Region => ({ id: `tab-${i}`, kind: 'tab', name, outline: square(20 * i, 0) });
const guideOf = (names: readonly string[], zoned: readonly string[] = []): Guide => ({
  name: 'G',
  source: 'published',
  tabs: names.map((name, i) => ({ name, lab: [80 - i, 0, 10], ...(zoned.includes(name) && { zones: { middle: [79 - i, 0, 12] as [number, number, number] } }) })),
});

function photo(names: readonly string[], checks: LightCheck[] = []): { scene: Scene; report: Report } {
  const scene: Scene = { card: null, regions: names.map(tab) };
  const readings = names.map((_, i) => ({ region: `tab-${i}`, zones: { middle: { lab: [78 - i, 0, 11], doubt: 2, doubt_in_photo: 0.4 } }, gradient: [] }));
  return { scene, report: { checks, readings } as unknown as Report };
}

const retake = (region?: string): LightCheck => ({ code: 'blur', severity: 'retake', text: '', remedy: '', ...(region && { region }) });

describe('the pairs of tabs', () => {
  it('are those whose names the guide knows, in its order, compared inside this photo', () => {
    const { scene, report } = photo(['A3', '', 'A1', 'own', 'A2']);
    const pairs = tabPairs(scene, report, guideOf(['A1', 'A2', 'A3', 'B1']));
    expect(pairs.map((p) => p.names)).toEqual([['A1', 'A2'], ['A1', 'A3'], ['A2', 'A3']]);
    expect(pairs[0]!.read).toEqual({ from: { lab: [76, 0, 11], doubt: 0.4 }, to: { lab: [74, 0, 11], doubt: 0.4 } });
  });

  it('take the guide’s middle third where it knows both, else the whole tabs', () => {
    const { scene, report } = photo(['A1', 'A2', 'A3']);
    const pairs = tabPairs(scene, report, guideOf(['A1', 'A2', 'A3'], ['A1', 'A2']));
    expect(pairs.map((p) => [p.names.join(), p.wholeTabs, p.guide.from.lab[2], p.guide.to.lab[2]])).toEqual([['A1,A2', false, 12, 12], ['A1,A3', true, 10, 10], ['A2,A3', true, 10, 10]]);
  });

  it('leave out what must not be trusted, and are none in a photo that has to be taken again', () => {
    const bad = photo(['A1', 'A2', 'A3'], [retake('tab-1')]);
    expect(tabPairs(bad.scene, bad.report, guideOf(['A1', 'A2', 'A3'])).map((p) => p.names)).toEqual([['A1', 'A3']]);
    const all = photo(['A1', 'A2'], [retake()]);
    expect(tabPairs(all.scene, all.report, guideOf(['A1', 'A2']))).toEqual([]);
  });

  it('are of 16 tabs at most', () => {
    const names = Array.from({ length: 20 }, (_, i) => `T${i}`);
    const { scene, report } = photo(names);
    expect(tabPairs(scene, report, guideOf(names))).toHaveLength((MAX_TABS * (MAX_TABS - 1)) / 2);
  });
});

const difference = ([l, c, h]: readonly number[], doubt?: number): Difference => ({
  delta_e_00: Math.hypot(l!, c!, h!), delta_l: l!, delta_c: c!, delta_h: h!, words: '', verdict: 'accepted', ...(doubt !== undefined && { doubt }),
});
const pair = (a: string, b: string): TabPair => ({ names: [a, b], wholeTabs: false, read: { from: { lab: [1, 0, 0] }, to: { lab: [2, 0, 0] } }, guide: { from: { lab: [3, 0, 0] }, to: { lab: [4, 0, 0] } } });

/** One pair as read (with its doubt) and by the guide. */
const row = (read: number[], guide: number[], doubt = 0.5) => tabRows([pair('A1', 'A3')], [difference(read, doubt), difference(guide)])[0]!;

describe('the rows', () => {
  it('ask once for all, as read and then by the guide, and put the worst first', () => {
    const pairs = [pair('A1', 'A2'), pair('A1', 'A3'), pair('A2', 'A3')];
    expect(asked(pairs).map((p) => p.from.lab[0])).toEqual([1, 1, 1, 3, 3, 3]);
    const reads = [[2, 0, 0], [4, 0, 0], [2, 0, 0]].map((d) => difference(d, 0.5));
    const guides = [[2.5, 0, 0], [4, 3, 0], [2, 1, 0]].map((d) => difference(d));
    const rows = tabRows(pairs, [...reads, ...guides]);
    expect(rows.map((r) => [r.names.join(), r.disagreement])).toEqual([['A1,A3', 3], ['A2,A3', 1], ['A1,A2', 0.5]]);
    expect(rows.map((r) => r.telling)).toEqual(['otherwise', 'nearly', 'as-guide']);
    expect(toldAsGuide(rows)).toBe(2);
  });

  it('disagree where two differences are as large but point elsewhere', () => {
    expect(row([3, 0, 0], [0, 3, 0])).toMatchObject({ read: { delta_e_00: 3 }, guide: { delta_e_00: 3 }, telling: 'otherwise' });
    expect(row([3, 0, 0], [0, 3, 0]).disagreement).toBeCloseTo(Math.sqrt(18), 9);
  });

  it('tell names that were exchanged', () => {
    expect(row([3, -1, 0], [-3, 1, 0]).telling).toBe('turned');
  });

  it('say when the photo does not tell apart what the guide does', () => {
    expect(row([0.3, 0, 0], [3, 0, 0]).telling).toBe('not-told');
    // Nor can more be asked where the guide itself sees hardly any difference.
    expect(row([0.3, 0, 0], [0.7, 0, 0]).telling).toBe('as-guide');
  });

  it('leave what lies within the doubt', () => {
    expect([row([3, 0, 0], [5, 0, 0], 0.5).telling, row([3, 0, 0], [5, 0, 0], 2.1).telling]).toEqual(['otherwise', 'as-guide']);
  });
});

it('names the compared tabs that the correction stands on', () => {
  const light = { tabs: [{ region: 'x', name: 'A1', used: true, left_out_delta_e_00: 1 }, { region: 'y', name: 'A3', used: false, left_out_delta_e_00: 4 }, { region: 'z', name: 'D4', used: true, left_out_delta_e_00: 1 }] };
  expect(anchored({ light } as unknown as Report, [row([1, 0, 0], [1, 0, 0])])).toEqual(['A1']);
});
