/**
 * A map over the photo: where a region is uneven – the selected one, else the two that are compared –
 * or where the restoration differs from its target.
 */
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

export type MapKind = 'uneven' | 'differing';

export const mapShown = signal<MapKind | null>(null);
/** Maps by region, each for the outline it was made from; and why there is none. */
export const maps = signal<ReadonlyMap<string, Patch>>(new Map());
export const mapProblem = signal<string | null>(null);

/** About as many pixels as a tooth takes on a large screen. */
const MAX_PX = 300_000;

/** Restoration and target, where there are both. */
const compared = computed(() => sheet.value?.advice);

export const canDiffer = computed(() => compared.value !== undefined);

/** Whose map is wanted. */
export const mapRegions = computed<string[]>(() => {
  if (mapShown.value === 'differing') return compared.value ? [compared.value.restoration] : [];
  const id = regionIdOf(selected.value);
  if (id !== null) return [id];
  return (sheet.value?.pictures ?? []).filter((p) => p.role !== 'tab').map((p) => p.region.id);
});

const namesOf = (ids: readonly string[]): string => words.evenness.and(ids.map((id) => words.names.region(scene.value, id)));

export function showMap(kind: MapKind, on: boolean): void {
  mapShown.value = on ? kind : null;
  // On a phone the photo is another side.
  if (on) side.value = 'photo';
  say(on ? words.evenness.maps[kind].shownFor(namesOf(mapRegions.value)) : words.evenness.hidden);
}

const made = new Map<string, { key: string; patch: Patch }>();

const keyOf = (handle: number, { card, second_card, ...of }: Scene, id: string): string => JSON.stringify([handle, card, second_card, regionById({ card, ...of }, id)]);

const make = latestOnly<{ wanted: Reading; ids: readonly string[]; target: string | undefined }>(async ({ wanted, ids, target }) => {
  const { photo, scene } = wanted.doc;
  if (!photo) return;
  let failed: string | null = null;
  for (const id of made.keys()) if (!ids.includes(id)) made.delete(id);
  for (const id of ids) {
    const key = keyOf(photo.handle, scene, id) + (target ? keyOf(photo.handle, scene, target) : '');
    if (made.get(id)?.key === key) continue;
    try {
      const of = { ...wanted.doc, photo };
      made.set(id, { key, patch: await (target ? desk.differenceMap(of, id, target, MAX_PX) : desk.evennessMap(of, id, MAX_PX)) });
    } catch (error) {
      made.delete(id);
      failed = describe(error).text;
    }
  }
  maps.value = new Map([...made].map(([id, { patch }]) => [id, patch]));
  mapProblem.value = failed;
});

export function startMaps(): () => void {
  return effect(() => {
    const wanted = reading.value;
    const ids = mapRegions.value.filter((id) => wanted && regionById(wanted.report.scene, id));
    if (!mapShown.value || !wanted || photoRetake.value) {
      made.clear();
      maps.value = new Map();
      mapProblem.value = null;
      return;
    }
    make({ wanted, ids, target: mapShown.value === 'differing' ? compared.value?.target : undefined });
  });
}
