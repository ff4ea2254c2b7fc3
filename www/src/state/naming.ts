/** Naming the tabs that have no name, one after the other. */
import { computed, signal } from '@preact/signals';
import type { Region } from '../engine/types';
import { scene } from './desk';
import { giveRegionName } from './role_edit';
import { middleOf } from './shapes';

const wanted = signal<string | null>(null);
const off = signal(false);

/** From left to right, as they are counted. */
export const tabsInOrder = computed<Region[]>(() =>
  scene.value.regions.filter((r) => r.kind === 'tab').sort((a, b) => middleOf(a.outline)[0] - middleOf(b.outline)[0]),
);

export const nameless = computed(() => tabsInOrder.value.filter((r) => !r.name));

/** The tab whose name is asked for; shown on the photo. */
export const asked = computed(() => tabsInOrder.value.find((r) => r.id === wanted.value)?.id ?? null);

/** Put off by the user until the next search. */
export const namingPutOff = computed(() => off.value);

export function ask(id: string | null): void {
  wanted.value = id;
}

/** The next nameless tab to the right follows by itself; its name never does. */
export function giveName(name: string): void {
  const id = asked.value;
  if (id === null) return;
  const at = tabsInOrder.value.findIndex((r) => r.id === id);
  giveRegionName(id, name);
  wanted.value = tabsInOrder.value.slice(at + 1).find((r) => !r.name)?.id ?? null;
}

export function putOffNaming(): void {
  off.value = true;
  wanted.value = null;
}

export function resumeNaming(): void {
  off.value = false;
  wanted.value = null;
}
