import { describe, expect, it } from 'vitest';
import type { FoundRegion, Point, Scene } from '../src/engine/types';
import { alongOld } from '../src/state/axis_way';
import { bordersOf, EVEN, movedBorder, onSheet, SHORTEST, withBorder, withEvenThirds } from '../src/state/borders';
import { stepsTyped } from '../src/state/card_steps';
import { distinctFrom, overlap } from '../src/state/overlap';
import { withPieces } from '../src/state/pieces';
import { aimsAt, crossings, cuts, mayCut, reachAcross } from '../src/stage/stroke';
import { square } from './squares';

const choice = (outline: Point[]): FoundRegion => ({ kind: 'tooth', outline, cervical: outline[0]!, incisal: outline[2]!, sure: 1 });

const SCENE: Scene = {
  card: null,
  regions: [{ id: 't', kind: 'restoration', name: '21', outline: square(0, 0, 100), cervical: [50, 0], incisal: [50, 100], borders: [0.3, 0.6] }],
};

describe('another outline', () => {
  it('is one that differs from the present one and from those before it', () => {
    const half: Point[] = [[0, 0], [100, 0], [100, 50], [0, 50]];
    expect(overlap(square(0, 0, 100), half)).toBeCloseTo(0.5, 1);
    expect(overlap(square(0, 0), square(50, 50))).toBe(0);
    const kept = distinctFrom(square(0, 0, 100), [choice(square(0, 0, 99)), choice(half), choice(square(0, 0, 40)), choice([[0, 0], [100, 0], [100, 51], [0, 51]])]);
    expect(kept.map((k) => k.outline)).toEqual([half, square(0, 0, 40)]);
  });

  it('has its axis the way the old one ran', () => {
    const up = { cervical: [0, 10] as Point, incisal: [0, 0] as Point };
    expect(alongOld(up, { cervical: [5, 0], incisal: [5, 9] })).toEqual({ cervical: [0, 0], incisal: [0, 10] });
    expect(alongOld(up, {})).toBe(up);
  });
});

describe('a cut', () => {
  const low: Point[] = [[0, 30], [100, 30], [100, 100], [0, 100]];
  const high: Point[] = [[0, 0], [100, 0], [100, 30], [0, 30]];

  it('leaves id, name, kind and borders to the piece with the old middle; the other is new', () => {
    const { scene, other } = withPieces(SCENE, 't', [choice(high), choice(low)]);
    expect(scene.regions[0]).toMatchObject({ id: 't', name: '21', kind: 'restoration', outline: low, borders: [0.3, 0.6] });
    expect(scene.regions[1]).toMatchObject({ id: other, name: '', kind: 'restoration', outline: high });
    expect(scene.regions[1]).not.toHaveProperty('borders');
  });

  it('may only trim, and changes nothing without a piece', () => {
    const { scene, other } = withPieces(SCENE, 't', [choice(low)]);
    expect([scene.regions.length, other, scene.regions[0]!.outline]).toEqual([1, null, low]);
    expect(withPieces(SCENE, 't', []).scene).toBe(SCENE);
  });

  it('keeps the way of the axis, but where the other outlines run another way', () => {
    const wide = { ...choice(high), cervical: [0, 15] as Point, incisal: [100, 15] as Point };
    const alone = withPieces(SCENE, 't', [wide]).scene.regions[0]!;
    expect([alone.cervical, alone.incisal]).toEqual([[50, 0], [50, 30]]);
    // Two teeth as one were wider than high: parted, each has the axis that teeth have there.
    const pair: Scene = { card: null, regions: [{ id: 'p', kind: 'tooth', name: '', outline: square(0, 0, 100), cervical: [0, 50], incisal: [100, 50] }, ...SCENE.regions] };
    const tall = { ...choice([[0, 0], [50, 0], [50, 100], [0, 100]]), cervical: [25, 0] as Point, incisal: [25, 100] as Point };
    expect(withPieces(pair, 'p', [tall]).scene.regions[0]).toMatchObject({ cervical: [25, 0], incisal: [25, 100] });
  });

  it('is meant by a drag from beside the outline towards it, and done when it leaves again', () => {
    const o = square(100, 100, 100);
    expect([mayCut(o, [40, 150]), mayCut(o, [10, 150]), mayCut(o, [150, 150])]).toEqual([true, false, false]);
    expect(aimsAt(o, [60, 150], [75, 150])).toBe(true);
    expect(aimsAt(o, [60, 150], [45, 150])).toBe(false);
    expect(aimsAt(o, [60, 150], [60, 135])).toBe(false);
    expect(crossings(o, [[60, 150], [250, 160]])).toBe(2);
    expect(cuts(o, [[60, 150], [150, 150], [250, 160]])).toBe(true);
    expect(cuts(o, [[60, 150], [150, 150]])).toBe(false);
    expect(cuts(o, [[60, 90], [250, 90]])).toBe(false);
    expect(cuts(o, [[60, 150], [250, 150], [150, 160]])).toBe(false);
  });
});

describe('the borders of the thirds', () => {
  it('move one at a time and leave every third a tenth of the axis, exactly as the engine reckons', () => {
    expect(movedBorder(EVEN, 0, 0.25)).toEqual([0.25, 2 / 3]);
    expect(movedBorder([0.2, 0.5], 1, 2)).toEqual([0.2, 0.9]);
    for (const start of [EVEN, [0.1, 0.3], [0.6, 0.7], [0.55, 0.9]] as const)
      for (const which of [0, 1] as const)
        for (let to = -0.1; to < 1.1; to += 0.013) {
          const [a, b] = movedBorder(start, which, to);
          expect(a >= SHORTEST && b - a >= SHORTEST && b <= 1 - SHORTEST, `${start} ${which} ${to}`).toBe(true);
          expect(which === 0 ? b : a).toBe(start[1 - which]);
        }
  });

  it('stand in the scene only when they are not even', () => {
    const moved = withBorder(SCENE, 't', 0, 0.4);
    expect(moved.regions[0]!.borders).toEqual([0.4, 0.6]);
    const even = withEvenThirds(moved, 't');
    expect(even.regions[0]).not.toHaveProperty('borders');
    expect(bordersOf(even.regions[0]!)).toEqual(EVEN);
  });

  it('lie at one height on the sheet, whatever they are', () => {
    for (const borders of [EVEN, [0.2, 0.5], [0.4, 0.9]] as const) {
      const places = [0, borders[0], borders[1], 1].map((at) => onSheet(at, borders));
      places.forEach((p, i) => expect(p).toBeCloseTo(i / 3, 12));
    }
    expect(onSheet(0.1, [0.2, 0.5])).toBeCloseTo(1 / 6, 12);
    expect(onSheet(0.4, EVEN)).toBeCloseTo(0.4, 12);
  });

  it('are drawn as far as the outline reaches', () => {
    expect(reachAcross(square(10, 10, 20), [15, 20], [1, 0])).toEqual([-5, 15]);
  });
});

describe('the steps of a card', () => {
  const outlines = [square(0, 0), square(10, 0), square(20, 0)];
  it('take typed values only: none is assumed but that grey is neutral', () => {
    expect(stepsTyped(outlines, [['95,2', '', ''], ['', '', ''], ['20', '−0.3', '0.4']])).toEqual([
      { outline: outlines[0], lab: [95.2, 0, 0] },
      { outline: outlines[2], lab: [20, -0.3, 0.4] },
    ]);
    expect(stepsTyped(outlines, [])).toBe('few');
    expect(stepsTyped(outlines, [['950', '', ''], ['20', '', '']])).toBe('range');
  });
});
