/** What can be done to outlines and undone, each at a place that dice choose; what an action is. Import after `engine/instance` is a fake. */
import type { Point, Region, RegionKind } from '../src/engine/types';

const [desk, outlines, edit, roles, tap, ui] = await Promise.all([
  import('../src/state/desk'), import('../src/state/outline_edit'), import('../src/state/scene_edit'), import('../src/state/role_edit'), import('../src/state/tap'), import('../src/state/ui'),
]);
const [borders, cut, next, remove, find, shapes] = await Promise.all([
  import('../src/state/borders'), import('../src/state/cut'), import('../src/state/next_outline'), import('../src/state/remove'), import('../src/state/find'), import('../src/state/shapes'),
]);
const { changeScene, endRun, scene } = desk;

/** Whole numbers below a bound, the same for the same seed (mulberry32). */
export function diceOf(seed: number): (below: number) => number {
  let a = seed;
  return (below) => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), a | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) % below;
  };
}

export type Dice = ReturnType<typeof diceOf>;
export interface Action {
  readonly name: string;
  /** Nothing, where there is nothing to do it with. */
  readonly act: (dice: Dice) => void | Promise<void>;
  /** Changes in a row with the same run are one step; asked before each change. */
  readonly run?: () => string | null;
  /** Only another look at what is there: no step. */
  readonly look?: true;
}

export const pick = <T>(dice: Dice, all: readonly T[]): T | undefined => all[dice(all.length || 1)];
export const place = (dice: Dice): Point => [dice(1200), dice(800)];
const ofKinds = (...kinds: RegionKind[]): Region[] => scene.value.regions.filter((r) => kinds.includes(r.kind));
const anyKey = (dice: Dice) => pick(dice, shapes.shapesOf(scene.value))?.key;
let runs = 0;

/** Several changes of one field, which are one step. */
export const typedIn = (name: string, once: (i: number) => void): Action => ({
  name,
  run: () => `${name} ${runs}`,
  act: (dice) => {
    endRun();
    runs++;
    for (let i = 1 + dice(3); i > 0; i--) once(i + 10 * dice(9));
  },
});

/** Of a drag or a run of keys: some changes, perhaps its end. */
export const dragged = (name: string, once: (dice: Dice, run: string) => void): Action => {
  let run = '';
  return {
    name,
    run: () => run,
    act: (dice) => {
      run = `${name} ${++runs}`;
      const where = dice(1 << 20);
      for (let i = 1 + dice(4); i > 0; i--) once(diceOf(where), run);
      if (dice(2)) endRun();
    },
  };
};
const onRegion = (name: string, act: (region: Region, dice: Dice) => void | Promise<void>, ...kinds: RegionKind[]): Action => ({
  name,
  act: async (dice) => {
    const region = pick(dice, kinds.length ? ofKinds(...kinds) : scene.value.regions);
    if (region) await act(region, dice);
  },
});

export const ON_OUTLINES: readonly Action[] = [
  ...(['card', 'second', 'step', 'tooth', 'restoration', 'tab'] as const).map((held): Action => ({
    name: `put ${held} by numbers`,
    act: (dice) => {
      const [x, y] = place(dice);
      if (held !== 'second' || scene.value.card) tap.putByNumbers(held, { x, y, width: 40 + dice(80), height: 40 + dice(80) });
    },
  })),
  dragged('move an outline', (dice, run) => {
    const key = anyKey(dice);
    if (key) changeScene('move', (s) => edit.moved(s, key, 1 + dice(20), dice(20)), run);
  }),
  dragged('move a point', (dice, run) => {
    const shape = pick(dice, shapes.shapesOf(scene.value));
    if (shape) changeScene('point', (s) => edit.withOutline(s, shape.key, outlines.dragPoint(shape.outline, 0, [0, 2], 3, 4)), run);
  }),
  dragged('move an end of an axis', (dice, run) => {
    const id = pick(dice, scene.value.regions)?.id;
    if (id) changeScene('axis', (s) => edit.withAxisEnd(s, id, 'cervical', place(dice)), run);
  }),
  dragged('move a border', (dice, run) => {
    const id = pick(dice, scene.value.regions)?.id;
    if (id) changeScene('border', (s) => borders.withBorder(s, id, 0, 0.2 + dice(20) / 100), run);
  }),
  onRegion('even thirds', (r) => changeScene('thirds', (s) => borders.withEvenThirds(s, r.id))),
  onRegion('another kind', (r, dice) => roles.setKind(r.id, pick(dice, ['tooth', 'restoration', 'tab'] as const)!)),
  onRegion('compare with', (r) => roles.compareWith(r.id), 'tooth'),
  onRegion('make the restoration', (r) => roles.makeRestoration(r.id), 'tooth'),
  { name: 'yes to the proposal', act: roles.acceptProposed },
  { name: 'there is none', act: roles.thereIsNone },
  typedIn('type a name', (i) => {
    const id = ofKinds('tab')[0]?.id;
    if (id) roles.giveRegionName(id, `A${i}`);
  }),
  { name: 'remove an outline', act: (dice) => { const key = anyKey(dice); if (key) remove.removeShape(key); } },
  onRegion('cut', (r) => { ui.select(shapes.regionKey(r.id)); return cut.cutAlong([[0, 0], [1200, 800]]); }),
  onRegion('next outline', (r) => next.nextOutline(r.id)),
  ...(['look', 'card', 'tooth', 'tab'] as const).map((held): Action => ({ name: `tap with ${held}`, act: (dice) => { ui.tool.value = held; return tap.tapPhoto(place(dice)); } })),
  { name: 'box the card', act: (dice) => { ui.tool.value = 'card'; return tap.boxPhoto({ x: dice(800), y: dice(500), width: 90, height: 80 }); } },
  { name: 'search again', act: find.searchAgain },
  { name: 'the card’s colour', act: (dice) => changeScene('colour', (s) => (s.card ? edit.withCard(s, { ...s.card, reflectance: dice(90) / 100 }) : s)) },
  { name: 'cross-polarised alone', act: () => changeScene('polarised', (s) => edit.withCrossPolarised(s, !s.cross_polarised)) },
];
