import { describe, expect, it } from 'vitest';
import type { OpenPhoto } from '../src/engine/desk';
import type { Card, LightCheck, Region, RegionKind, RegionReading, Report, Scene, Trust, ZoneReading } from '../src/engine/types';
import { THIRDS } from '../src/engine/types';
import { cardsOf } from '../src/state/compare/cards';
import { inOnePhoto, isSuspected, nearestOf, pairsOf, picksOf, reasonOf, rungsApart, seriesOf, sideAt, typedFrom, usualPicks, type OpenOne, type Sided } from '../src/state/compare/compare_model';
import type { Proposal } from '../src/state/doc';
import { typedZones } from '../src/state/stains/typed_plan';
import { square } from './squares';

const region = (id: string, kind: RegionKind, name = ''): Region => ({ id, kind, name, outline: square(0, 0), cervical: [5, 0], incisal: [5, 10] });
const zone = (l: number, doubt: number, inPhoto = 0.3): ZoneReading => ({ lab: [l, 1, 16], chroma: 16, hue_deg: 86, doubt, doubt_in_photo: inPhoto } as ZoneReading);
const reading = (id: string, l: number, doubt: number): RegionReading => ({
  region: id,
  zones: Object.fromEntries(THIRDS.map((third, i) => [third, zone(l - i, doubt)])),
  gradient: [{ at: 0, lab: [l, 1, 16] }, { at: 1, lab: [l - 2, 1, 16] }],
});
const retake = (regionId?: string): LightCheck => ({ code: 'blur', severity: 'retake', text: 'Blurred.', remedy: 'Hold still.', ...(regionId && { region: regionId }) });

function open(handle: number, regions: Region[], also: { checks?: LightCheck[]; unread?: boolean; target?: string; card?: Card; doubt?: number; proposal?: Proposal; trust?: Trust } = {}): OpenOne {
  const scene: Scene = { card: also.card ?? null, regions };
  const readings = regions.map((r, i) => reading(r.id, 70 + handle + 4 * i, also.doubt ?? 1));
  const report = { checks: also.checks ?? [], scene, readings, ladders: [{ region: regions[0]?.id, zone: 'middle', tabs: [{ name: 'A2' }, { name: 'A1', alike: true }, { name: 'A3' }] }], advice: [], light: { trust: also.trust ?? 'card' } } as unknown as Report;
  return { photo: { handle, name: `${handle}.jpg` } as OpenPhoto, made: { scene, target: also.target, proposal: also.proposal ?? {} }, report: also.unread ? null : report };
}

const CLIENT = open(1, [region('t1', 'tooth'), region('t2', 'tooth'), region('r1', 'restoration')], { target: 't2' });
const BENCH = open(2, [region('crown', 'restoration')], { doubt: 2 });
const at = (one: OpenOne, id: string): Sided => sideAt([one], { handle: one.photo.handle, region: id })!;

describe('who is compared', () => {
  it('is the restoration on the bench with the chosen target of the other photo, whichever is looked at', () => {
    const usual = { restoration: { handle: 2, region: 'crown' }, target: { handle: 1, region: 't2' } };
    expect(usualPicks([CLIENT, BENCH])).toEqual(usual);
    expect(usualPicks([BENCH, CLIENT])).toEqual(usual);
  });

  it('is the restoration of one with a tooth of another that has none', () => {
    const other = open(3, [region('t', 'tooth')]);
    expect(usualPicks([CLIENT, other])).toEqual({ restoration: { handle: 1, region: 'r1' }, target: { handle: 3, region: 't' } });
    expect(usualPicks([other, CLIENT])).toEqual({ restoration: { handle: 1, region: 'r1' }, target: { handle: 3, region: 't' } });
  });

  it('is compared with a photo that has no restoration of its own, where there is one', () => {
    const plain = open(3, [region('t', 'tooth')]);
    expect(usualPicks([CLIENT, BENCH, plain]).target).toEqual({ handle: 3, region: 't' });
  });

  it('is a tooth of either photo when nothing is a restoration', () => {
    const [a, b] = [open(3, [region('t', 'tooth')]), open(4, [region('u', 'tooth')])];
    expect(usualPicks([a, b])).toEqual({ restoration: { handle: 4, region: 'u' }, target: { handle: 3, region: 't' } });
  });

  it('is what may be the restoration until that is answered, and only that', () => {
    const asked = open(5, [region('a', 'tooth'), region('b', 'tooth')], { proposal: { restoration: 'b', target: 'a' } });
    const plain = open(4, [region('t', 'tooth')]);
    for (const all of [[plain, asked], [asked, plain]]) expect(usualPicks(all)).toEqual({ restoration: { handle: 5, region: 'b' }, target: { handle: 4, region: 't' } });
    expect([isSuspected(at(asked, 'b')), isSuspected(at(asked, 'a'))]).toEqual([true, false]);
    // One that was called so comes first; then the suspected one is no target either.
    const first = open(6, [region('x', 'tooth'), region('y', 'tooth')], { proposal: { restoration: 'x' } });
    expect(usualPicks([first, BENCH])).toEqual({ restoration: { handle: 2, region: 'crown' }, target: { handle: 6, region: 'y' } });
    const bench = open(7, [region('c', 'tooth')], { proposal: { restoration: 'c' } });
    expect(usualPicks([asked, bench])).toEqual({ restoration: { handle: 7, region: 'c' }, target: { handle: 5, region: 'a' } });
    const answered = open(5, [region('a', 'tooth'), region('b', 'restoration')], { proposal: { target: 'a' } });
    expect([usualPicks([plain, answered]).restoration, isSuspected(at(answered, 'b'))]).toEqual([{ handle: 5, region: 'b' }, false]);
  });

  it('is in no photo that has to be taken again, while there are others', () => {
    const check = { code: 'blur', severity: 'retake', text: '', remedy: '' } as const;
    const shaky = open(8, [region('s', 'tooth')]);
    shaky.report!.checks = [check];
    expect(usualPicks([shaky, CLIENT, BENCH]).target).toEqual(usualPicks([CLIENT, BENCH]).target);
    expect(usualPicks([BENCH, shaky]).target).toEqual({ handle: 8, region: 's' });
  });

  it('is nobody in the same photo unless somebody chooses so', () => {
    expect(usualPicks([CLIENT])).toEqual({ restoration: { handle: 1, region: 'r1' }, target: null });
    const chosen = { restoration: { handle: 1, region: 'r1' }, target: { handle: 1, region: 't1' } };
    expect(picksOf([CLIENT, BENCH], chosen)).toEqual(chosen);
  });

  it('is as usual again once what was chosen is gone', () => {
    const gone = { restoration: { handle: 1, region: 'r1' }, target: { handle: 9, region: 't' } };
    expect(picksOf([CLIENT, BENCH], gone)).toEqual({ restoration: { handle: 1, region: 'r1' }, target: { handle: 1, region: 't2' } });
  });
});

describe('the pairs of colours', () => {
  const pairs = pairsOf(at(BENCH, 'crown'), at(CLIENT, 't2'));

  it('have the target as reference, third by third', () => {
    expect(pairs.map((p) => [p.zone, p.pair.from.lab[0], p.pair.to.lab[0]])).toEqual([['cervical', 75, 72], ['middle', 74, 71], ['incisal', 73, 70]]);
  });

  it('bring the whole doubt of each photo, and only what is not shared inside one', () => {
    expect(pairs.map((p) => [p.pair.from.doubt, p.pair.to.doubt])).toEqual([[1, 2], [1, 2], [1, 2]]);
    const inside = pairsOf(at(CLIENT, 'r1'), at(CLIENT, 't2'));
    expect(inside.map((p) => [p.pair.from.doubt, p.pair.to.doubt])).toEqual([[0.3, 0.3], [0.3, 0.3], [0.3, 0.3]]);
    expect([inOnePhoto(at(BENCH, 'crown'), at(CLIENT, 't2')), inOnePhoto(at(CLIENT, 'r1'), at(CLIENT, 't2'))]).toEqual([false, true]);
  });

  it('leave out a third that one of the two has not', () => {
    const short = open(5, [region('crown', 'restoration')]);
    delete short.report!.readings[0]!.zones.middle;
    expect(pairsOf(at(short, 'crown'), at(CLIENT, 't1')).map((p) => p.zone)).toEqual(['cervical', 'incisal']);
  });

  it('become a typed plan from the restoration to the target', () => {
    const typed = typedFrom(pairs.slice(1));
    expect(typedZones(typed)).toEqual([
      { zone: 'middle', from: [71, 1, 16], to: [74, 1, 16], doubt: Math.sqrt(5) },
      { zone: 'incisal', from: [70, 1, 16], to: [73, 1, 16], doubt: Math.sqrt(5) },
    ]);
    expect(typed.cervical.from).toEqual(['', '', '']);
  });
});

describe('the rungs of trust of two photos', () => {
  it('are told when they differ', () => {
    const tabs = open(8, [region('t', 'tooth')], { trust: 'card_and_tabs' });
    expect(rungsApart(at(BENCH, 'crown'), at(tabs, 't'))).toEqual(['card', 'card_and_tabs']);
    expect([rungsApart(at(BENCH, 'crown'), at(CLIENT, 't1')), rungsApart(at(open(9, [region('t', 'tooth')], { unread: true }), 't'), at(tabs, 't'))]).toEqual([null, null]);
  });
});

describe('what must not be trusted', () => {
  it.each([
    ['the photo', [retake()]],
    ['the region', [retake('crown')]],
  ])('gives its reason in place of numbers: %s', (_, checks) => {
    const bad = open(2, [region('crown', 'restoration')], { checks });
    expect(reasonOf(bad.report, 'crown')).toEqual({ why: 'retake', check: checks[0] });
    const side = at(bad, 'crown');
    expect([side.reading, pairsOf(side, at(CLIENT, 't2')), pairsOf(at(CLIENT, 't2'), side), seriesOf(side, 'restoration', ''), nearestOf(side, 'middle')]).toEqual([undefined, [], [], [], null]);
  });

  it('is not another region of the same photo', () => {
    const other = open(2, [region('crown', 'restoration'), region('t', 'tooth')], { checks: [retake('t')] });
    expect(reasonOf(other.report, 'crown')).toBeNull();
    expect(pairsOf(at(other, 'crown'), at(CLIENT, 't2'))).toHaveLength(3);
  });

  it('is told from what is not read yet, or could not be read', () => {
    expect(reasonOf(open(1, [region('t', 'tooth')], { unread: true }).report, 't')).toEqual({ why: 'waiting' });
    expect(reasonOf(CLIENT.report, 'not-there')).toEqual({ why: 'no-reading' });
  });
});

describe('the cards of two photos', () => {
  const scene = (card: Partial<Card> | null): Scene => ({ card: card && { outline: [], ...card }, regions: [] });
  it.each([
    ['same', { lab: [50, 0, 0] }, { lab: [50.05, 0, 0] }],
    ['same', { reflectance: 0.184187 }, { lab: [50, 0, 0] }],
    ['different', { lab: [50, 0, 0] }, { lab: [49, 0, 0] }],
    ['different', { lab: [50, 0, 0] }, { steps: [{ outline: [], lab: [80, 0, 0] }, { outline: [], lab: [50, 0, 0] }] }],
    ['unknown', { lab: [50, 0, 0] }, {}],
    ['unknown', {}, {}],
    ['unknown', null, { lab: [50, 0, 0] }],
  ] as const)('%s: %j, %j', (said, a, b) => {
    expect([cardsOf(scene(a as never), scene(b as never)), cardsOf(scene(b as never), scene(a as never))]).toEqual([said, said]);
  });
});

it('names the nearest tab and those that cannot be told from it, where there is a ladder', () => {
  expect(nearestOf(at(BENCH, 'crown'), 'middle')).toMatchObject({ rung: { name: 'A2' }, alike: ['A1'] });
  expect(nearestOf(at(BENCH, 'crown'), 'incisal')).toBeNull();
});
