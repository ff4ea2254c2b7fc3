/** The sides of an exercise: regions of the open photo, or typed values. */
import { computed, signal } from '@preact/signals';
import { words } from '../../words';
import { scene } from '../desk';
import { spotsOf } from '../passes/frame';
import { reading } from '../reading';
import { stains } from '../stains/work';
import { EMPTY_EXERCISE, type Side } from './exercise';
import { EMPTY_SIDE, typedSpots, type TypedSide } from './exercise_model';

export const exercise = computed(() => stains.value.practice ?? EMPTY_EXERCISE);

export const TYPED = 'typed';
export type Role = 'base' | 'target' | 'got' | 'now';

export interface Option extends Side {
  readonly id: string;
}

/** What can be chosen: everything that was read in the open photo, tabs first. */
export const options = computed<Option[]>(() => {
  const current = reading.value;
  if (!current) return [];
  const { regions } = current.doc.scene;
  const tabs = regions.filter((r) => r.kind === 'tab');
  return [...tabs, ...regions.filter((r) => r.kind !== 'tab')]
    .map((r) => ({ id: r.id, name: words.names.region(scene.value, r.id), spots: spotsOf(current.report, r.id) }))
    .filter(({ spots }) => Object.keys(spots).length > 0);
});

/** What the user chose, by region id or `TYPED`; for the photo that is open. */
export const chosen = signal<Partial<Record<Role, string>>>({});
export const typed = signal<Partial<Record<Role, TypedSide>>>({});

/** The choice, or the likeliest: tabs in their order, and of the result those with the names of the task. */
export function choiceOf(role: Role): string {
  const all = options.value;
  const mine = chosen.value[role];
  if (mine === TYPED || all.some((o) => o.id === mine)) return mine!;
  const { task } = exercise.value;
  if (role === 'base') return all[0]?.id ?? TYPED;
  if (role === 'target') return all[1]?.id ?? TYPED;
  const named = all.find((o) => o.name === (role === 'got' ? task?.base.name : task?.target.name));
  return named?.id ?? (role === 'now' && task && Object.values(task.target.spots)[0]?.doubt === 0 ? TYPED : (all[role === 'got' ? 0 : 1]?.id ?? TYPED));
}

/** A side as it stands; `null` while it is not complete. */
export function sideOf(role: Role): Side | null {
  const choice = choiceOf(role);
  if (choice !== TYPED) return options.value.find((o) => o.id === choice) ?? null;
  const { task } = exercise.value;
  // What was typed as the target stays the target.
  if (role === 'now' && task && !typed.value.now) return task.target;
  const spots = typedSpots(typed.value[role] ?? EMPTY_SIDE);
  return spots && { name: words.practice.typedName, spots };
}
