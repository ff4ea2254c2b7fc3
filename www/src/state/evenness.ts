/** The map of unevenness over the photo: of the selected region, else of the two that are compared. */
import { computed, effect, signal } from '@preact/signals';
import { desk } from '../engine/instance';
import type { Patch, Scene } from '../engine/types';
import { words } from '../words';
import { scene } from './desk';
import { latestOnly } from './latest';
import { describe } from './problems';
import { reading, type Reading } from './reading';
import { regionById, regionIdOf } from './shapes';
import { photoRetake, sheet } from './sheet';
import { say } from './status';
import { selected, side } from './ui';

export const unevenShown = signal(false);
/** Maps by region, each for the outline it was made from; and why there is none. */
export const unevenMaps = signal<ReadonlyMap<string, Patch>>(new Map());
export const unevenProblem = signal<string | null>(null);

/** About as many pixels as a tooth takes on a large screen. */
const MAX_PX = 300_000;

/** Whose map is wanted. */
export const unevenRegions = computed<string[]>(() => {
  const id = regionIdOf(selected.value);
  if (id !== null) return [id];
  return (sheet.value?.pictures ?? []).filter((p) => p.role !== 'tab').map((p) => p.region.id);
});

const namesOf = (ids: readonly string[]): string => words.evenness.and(ids.map((id) => words.names.region(scene.value, id)));

export function showUneven(on: boolean): void {
  unevenShown.value = on;
  // On a phone the photo is another side.
  if (on) side.value = 'photo';
  say(on ? words.evenness.shownFor(namesOf(unevenRegions.value)) : words.evenness.hidden);
}

const made = new Map<string, { key: string; patch: Patch }>();

const keyOf = (handle: number, { card, second_card, ...of }: Scene, id: string): string => JSON.stringify([handle, card, second_card, regionById({ card, ...of }, id)]);

const make = latestOnly<{ wanted: Reading; ids: readonly string[] }>(async ({ wanted, ids }) => {
  const { photo, scene } = wanted.doc;
  if (!photo) return;
  let failed: string | null = null;
  for (const id of made.keys()) if (!ids.includes(id)) made.delete(id);
  for (const id of ids) {
    const key = keyOf(photo.handle, scene, id);
    if (made.get(id)?.key === key) continue;
    try {
      made.set(id, { key, patch: await desk.evennessMap({ ...wanted.doc, photo }, id, MAX_PX) });
    } catch (error) {
      made.delete(id);
      failed = describe(error).text;
    }
  }
  unevenMaps.value = new Map([...made].map(([id, { patch }]) => [id, patch]));
  unevenProblem.value = failed;
});

export function startEvenness(): () => void {
  return effect(() => {
    const wanted = reading.value;
    const ids = unevenRegions.value.filter((id) => wanted && regionById(wanted.report.scene, id));
    if (!unevenShown.value || !wanted || photoRetake.value) {
      made.clear();
      unevenMaps.value = new Map();
      unevenProblem.value = null;
      return;
    }
    make({ wanted, ids });
  });
}
