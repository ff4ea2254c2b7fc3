import { describe, expect, it } from 'vitest';
import type { ShortfallCode } from '../src/engine/types';
import { sideBySide } from '../src/state/patient/neighbours';
import { remedyOf, type Planned } from '../src/state/patient/remedy_model';
import type { Difference, Way } from '../src/state/patient/sentence_model';
import { square } from './squares';

const differs = (...ways: Way[]): Difference => ({ kind: 'differs', colourOnly: false, clauses: [{ amount: 'clearly', ways, where: { thirds: ['middle'], mostly: false } }] });
interface Change {
  coats?: number[];
  left?: number[];
  doubts?: number[];
  rise?: number;
  codes?: ShortfallCode[];
}
const plan = ({ coats = [1.25, 0.5], left = [0.5, 0.4], doubts = [0.9, 0.9], rise = -2, codes = [] }: Change = {}): Planned => ({
  zones: coats.map((n, i) => ({ zone: 'middle' as const, from: [76, 0, 14] as [number, number, number], paint: { mix: [], coats: n }, predicted: { lab: [76 + rise, 0, 14] as [number, number, number], doubt: 0.5 }, after_delta_e_00: left[i]! })),
  shortfalls: codes.map((code) => ({ code })),
  doubts,
});
const remedy = (change?: Change, ...ways: Way[]) => remedyOf(differs(...(ways.length ? ways : (['brighter'] as const))), plan(change));

describe('what painting could do', () => {
  it('is not spoken of without a difference', () => {
    for (const kind of ['unsure', 'alike', 'hardly'] as const) expect(remedyOf({ kind }, plan())).toBeNull();
    expect(remedyOf(differs('brighter'), null)).toBeNull();
  });

  it('brings together what is predicted so, doubt included', () => {
    expect(remedy()).toEqual({ kind: 'together', coats: 2, price: false });
    expect(remedy({ left: [0.8, 0.4], doubts: [1, 1] })).toMatchObject({ kind: 'together' });
    expect(remedy({ left: [0.81, 0.4] })).toMatchObject({ kind: 'closer-maybe' });
    expect(remedy({ doubts: [1.4, 0.9] })).toMatchObject({ kind: 'closer-maybe' });
  });

  it('is only closer when something stays', () => {
    expect(remedy({ left: [1.2, 0.4], doubts: [1.3, 0.9] })).toMatchObject({ kind: 'closer-maybe' });
    expect(remedy({ left: [1.4, 0.4], doubts: [1.3, 0.9] })).toMatchObject({ kind: 'closer' });
    expect(remedy({ codes: ['coat-limit'] })).toMatchObject({ kind: 'closer' });
  });

  it('names a price, which is no shortfall', () => {
    expect(remedy({ codes: ['opaque'] })).toEqual({ kind: 'together', coats: 2, price: true });
    expect(remedy({ codes: ['lightened-at-a-price', 'chroma-too-high'] })).toEqual({ kind: 'closer', coats: 2, price: true });
  });

  it('counts the coats where most are painted', () => {
    expect([[0.25], [1], [1.25, 3], [4.5]].map((coats) => remedy({ coats, left: [0.1, 0.1] }))).toMatchObject([{ coats: 1 }, { coats: 1 }, { coats: 3 }, { coats: 5 }]);
  });

  it('is nothing when nothing is painted', () => expect(remedy({ coats: [0, 0], codes: ['no-nearer'] })).toEqual({ kind: 'no-gain' }));

  it('never lightens what is too dark', () => {
    expect(remedyOf(differs('darker'), null)).toEqual({ kind: 'darkens' });
    expect(remedy({ codes: ['target-lighter'] }, 'darker', 'paler')).toEqual({ kind: 'darkens' });
    expect(remedy({ coats: [0, 0] }, 'darker')).toEqual({ kind: 'darkens' });
    // A stain that is shown to lighten does what it is predicted to do.
    expect(remedy({ codes: ['target-lighter', 'lightened-at-a-price'], rise: 1 }, 'darker')).toEqual({ kind: 'closer', coats: 2, price: true });
    expect(remedy({ codes: ['lightened-at-a-price'], rise: 2 }, 'darker')).toEqual({ kind: 'together', coats: 2, price: true });
    // What is not said to be darker is not told so here.
    expect(remedy({ codes: ['target-lighter'] }, 'brighter')).toMatchObject({ kind: 'closer' });
  });
});

describe('the tooth beside it', () => {
  const at = (x: number, y: number, size = 100) => ({ id: `${x}`, kind: 'tooth' as const, name: '', outline: square(x, y, size), cervical: [x + size / 2, y] as [number, number], incisal: [x + size / 2, y + size] as [number, number] });
  const turned = (x: number, y: number) => ({ ...at(x, y), cervical: [x, y + 50] as [number, number], incisal: [x + 100, y + 50] as [number, number] });

  it('touches it or nearly so, at the same height', () => {
    expect([at(100, 0), at(120, 20), at(-110, -30), at(90, 0)].map((other) => sideBySide(at(0, 0), other))).toEqual([true, true, true, true]);
  });

  it('is none that is further away, above, below or on top of it', () => {
    expect([at(200, 0), at(126, 0), at(100, 60), at(0, 100), at(20, 0)].map((other) => sideBySide(at(0, 0), other))).toEqual([false, false, false, false, false]);
  });

  it('is so in a photo that lies on its side', () => {
    expect([sideBySide(turned(0, 0), turned(0, 100)), sideBySide(turned(0, 0), turned(100, 0))]).toEqual([true, false]);
  });
});
