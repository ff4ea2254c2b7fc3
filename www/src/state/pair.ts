/** The pair of photos: how one lies over the other, laying it by hand, and the map of the glare. */
import { computed, effect, signal } from '@preact/signals';
import { desk } from '../engine/instance';
import type { PairTransform, Preview } from '../engine/types';
import { words } from '../words';
import { changeScene, doc, endRun, photo, scene } from './desk';
import { AS_IT_IS, inverted, layOf, transformOf, type Lay } from './lay';
import { latestOnly } from './latest';
import { MAX_PREVIEW_PX } from './previews';
import { describe } from './problems';
import { reading, type Reading } from './reading';
import { withPairTransform } from './scene_edit';
import { say } from './status';
import { adjusting, PAIR_VIEWS, pairView, tool, type PairView } from './ui';

export const paired = computed(() => doc.value.photo !== null && doc.value.polarised !== null);

/** Plain pixel → cross-polarised pixel: laid by hand, else as the engine found it. */
const transform = computed(() => scene.value.pair_transform ?? reading.value?.report.pair?.transform);

/** How one lies over the other; as it is when nothing was found. */
export const lay = computed<Lay>(() => {
  const size = photo.value?.info;
  return size && transform.value ? layOf(transform.value, size) : AS_IT_IS;
});

/** Cross-polarised pixel → plain pixel. */
export const layInUse = computed<PairTransform>(() => (transform.value ? inverted(transform.value) : [[1, 0, 0], [0, 1, 0]]));

export const layFound = computed(() => scene.value.pair_transform !== undefined || reading.value?.report.pair != null);

/** Limits of what is typed; a photo that needs more does not show the same teeth. */
export const LIMITS: Record<keyof Lay, { min: number; max: number; step: number }> = {
  x_px: { min: -20_000, max: 20_000, step: 1 },
  y_px: { min: -20_000, max: 20_000, step: 1 },
  turn_deg: { min: -180, max: 180, step: 0.1 },
  scale: { min: 0.2, max: 5, step: 0.001 },
};

export function putLay(change: Partial<Lay>): void {
  const size = photo.value?.info;
  if (!size) return;
  const next = { ...lay.value, ...change };
  for (const key of Object.keys(LIMITS) as (keyof Lay)[]) next[key] = Math.min(Math.max(next[key], LIMITS[key].min), LIMITS[key].max);
  changeScene(words.edits.layPair, (s) => withPairTransform(s, transformOf(next, size)), 'lay pair');
}

export function layAutomatically(): void {
  changeScene(words.edits.layAuto, (s) => withPairTransform(s, null));
}

export function showPair(next: PairView): void {
  pairView.value = next;
  say(words.pair.shown[next]);
}

export function cyclePair(): void {
  if (paired.value) showPair(PAIR_VIEWS[(PAIR_VIEWS.indexOf(pairView.value) + 1) % PAIR_VIEWS.length]!);
}

export function adjust(on: boolean): void {
  endRun();
  adjusting.value = on;
  if (!on) return;
  tool.value = 'look';
  pairView.value = 'polarised';
}

/** The glare over the photo, or why it cannot be shown. */
export const glareMap = signal<Preview | null>(null);
export const glareProblem = signal<string | null>(null);
let madeFor: Reading | null = null;

const makeMap = latestOnly<Reading>(async (wanted) => {
  const { doc } = wanted;
  if (!doc.photo || reading.value !== wanted || madeFor === wanted) return;
  try {
    glareMap.value = await desk.glareMap({ ...doc, photo: doc.photo }, MAX_PREVIEW_PX);
    glareProblem.value = null;
    madeFor = wanted;
  } catch (error) {
    glareMap.value = null;
    glareProblem.value = describe(error).text;
  }
});

export function startPair(): () => void {
  const stops = [
    effect(() => {
      if (paired.value) return;
      pairView.value = 'plain';
      adjusting.value = false;
    }),
    effect(() => {
      const current = reading.value;
      if (pairView.value === 'glare' && current?.report.pair) makeMap(current);
      if (!current?.report.pair) glareMap.value = madeFor = null;
    }),
  ];
  return () => stops.forEach((stop) => stop());
}
