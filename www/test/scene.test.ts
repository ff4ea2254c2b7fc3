import { describe, expect, it } from 'vitest';
import type { Scene } from '../src/engine/types';
import { added, moved, removed, withAxisEnd, withCrossPolarised, withOutline, withPairTransform, withRegion, withSecondCard } from '../src/state/scene_edit';
import { areaOf, contains, distanceTo, regionKey, shapeAt, shapeNear, shapesOf, stepKey } from '../src/state/shapes';
import { words } from '../src/words';
import { square } from './squares';

const SCENE: Scene = {
  card: { outline: square(100, 0), steps: [{ outline: square(200, 0), lab: [70, 0, 0] }] },
  regions: [
    { id: 't', kind: 'tooth', name: '', outline: square(0, 0, 40), cervical: [20, 0], incisal: [20, 40] },
    { id: 'a', kind: 'tab', name: 'A2', outline: square(10, 10, 5) },
  ],
};

describe('shapes', () => {
  it('lists card, steps and regions under keys', () => {
    expect(shapesOf(SCENE).map((s) => s.key)).toEqual(['card', 'step:0', 'region:t', 'region:a']);
  });

  it('finds what is under a point, the smaller first', () => {
    expect(shapeAt(SCENE, [12, 12])).toBe('region:a');
    expect(shapeAt(SCENE, [35, 35])).toBe('region:t');
    expect(shapeAt(SCENE, [205, 5])).toBe('step:0');
    expect(shapeAt(SCENE, [90, 90])).toBeNull();
    expect(contains(square(0, 0), [5, 5]) && !contains(square(0, 0), [15, 5])).toBe(true);
    expect(areaOf(square(3, 4, 10))).toBe(100);
  });

  it('names them for people', () => {
    expect(words.names.shape(SCENE, regionKey('a'))).toBe('Tab A2');
    expect(words.names.shape(SCENE, regionKey('t'))).toBe('Tooth');
    expect(words.names.own(SCENE, 'a')).toBe('A2');
    const two = added(SCENE, { kind: 'tooth', name: '', outline: square(0, 0), cervical: [0, 0], incisal: [1, 1] });
    expect(words.names.region(two.scene, two.id)).toBe('Tooth b');
  });
});

describe('edits', () => {
  it('change one thing and leave the scene they came from', () => {
    const before = JSON.stringify(SCENE);
    const next = withOutline(SCENE, regionKey('a'), square(1, 1));
    expect(next.regions[1]?.outline).toEqual(square(1, 1));
    expect(next.regions[0]).toBe(SCENE.regions[0]);
    expect(withOutline(SCENE, 'card', square(7, 7)).card?.outline).toEqual(square(7, 7));
    expect(withOutline(SCENE, stepKey(0), square(7, 7)).card?.steps?.[0]).toEqual({ outline: square(7, 7), lab: [70, 0, 0] });
    expect(JSON.stringify(SCENE)).toBe(before);
  });

  it('move the axis with the outline', () => {
    const tooth = moved(SCENE, regionKey('t'), 5, -3).regions[0]!;
    expect(tooth.outline[0]).toEqual([5, -3]);
    expect(tooth.cervical).toEqual([25, -3]);
    expect(tooth.incisal).toEqual([25, 37]);
    expect(withAxisEnd(SCENE, 't', 'incisal', [1.26, 2]).regions[0]?.incisal).toEqual([1.3, 2]);
  });

  it('remove a region, a step, the card', () => {
    expect(removed(SCENE, regionKey('t')).regions.map((r) => r.id)).toEqual(['a']);
    expect(removed(SCENE, 'card').card).toMatchObject({ outline: [], steps: [{}] });
    expect(removed(removed(SCENE, 'card'), stepKey(0)).card).toBeNull();
  });

  it('put a card at a second place, move it, and take it away without a trace', () => {
    const scene = withSecondCard(SCENE, { outline: square(300, 0), reflectance: 0.18 });
    expect(shapesOf(scene).map((s) => s.key)).toEqual(['card', 'step:0', 'second', 'region:t', 'region:a']);
    expect(shapeAt(scene, [305, 5])).toBe('second');
    expect(moved(scene, 'second', 2, 3).second_card).toEqual({ outline: square(302, 3), reflectance: 0.18 });
    expect(words.names.shape(scene, 'second')).not.toBe(words.names.shape(scene, 'card'));
    expect(removed(scene, 'second')).toEqual(SCENE);
  });

  it('say and unsay how the photo was taken and laid, without a trace', () => {
    expect(withCrossPolarised(SCENE, true).cross_polarised).toBe(true);
    expect(withCrossPolarised(withCrossPolarised(SCENE, true), false)).toEqual(SCENE);
    expect(withPairTransform(withPairTransform(SCENE, [[1, 0, 2], [0, 1, 3]]), null)).toEqual(SCENE);
  });

  it('give new regions an id of their own', () => {
    const one = added(SCENE, { kind: 'tab', name: 'B1', outline: square(0, 0), cervical: [0, 0], incisal: [1, 1] });
    const two = added(one.scene, { kind: 'tab', name: 'B2', outline: square(0, 0), cervical: [0, 0], incisal: [1, 1] });
    expect(new Set(two.scene.regions.map((r) => r.id)).size).toBe(4);
    expect(withRegion(two.scene, two.id, { name: 'C1' }).regions.at(-1)?.name).toBe('C1');
  });
});

describe('a tap beside an outline', () => {
  const scene: Scene = {
    card: null,
    regions: [
      { id: 'a', kind: 'tooth', name: '', outline: square(0, 0) },
      { id: 'b', kind: 'tooth', name: '', outline: square(100, 0) },
    ],
  };
  it('means the nearest one within reach, and the one it lies in before that', () => {
    const right = Math.max(...square(0, 0).map(([x]) => x));
    expect(distanceTo(square(0, 0), [right + 3, 5])).toBeCloseTo(3);
    expect(shapeNear(scene, [right + 3, 5], 4)).toBe(regionKey('a'));
    expect(shapeNear(scene, [right + 3, 5], 2)).toBeNull();
    expect(shapeNear(scene, [97, 5], 4)).toBe(regionKey('b'));
    expect(shapeNear(scene, [right - 1, 5], 1000)).toBe(regionKey('a'));
  });
});
