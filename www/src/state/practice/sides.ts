/** The sides of an exercise: regions of the open photo, or typed values. */
import { computed, signal } from '@preact/signals';
import { words } from '../../words';
import { scene } from '../desk';
import { spotsOf } from '../passes/frame';
import { reading } from '../reading';
import { stains } from '../stains/work';
import { EMPTY_EXERCISE, type Side } from './exercise';
import { EMPTY_SIDE, typedOf, typedSpots, type TypedSide } from './exercise_model';

export const exercise = computed(() => stains.value.practice ?? EMPTY_EXERCISE);

export const TYPED = 'typed';
export type Role = 'base' | 'target' | 'got' | 'now';

export interface Option extends Side {
  readonly id: string;
  readonly isTab: boolean;
}

/** What can be chosen: everything that was read in the open photo, tabs first. */
export const options = computed<Option[]>(() => {
  const current = reading.value;
  if (!current) return [];
  const { regions } = current.doc.scene;
  const photo = current.doc.photo?.print;
  const tabs = regions.filter((r) => r.kind === 'tab');
  return [...tabs, ...regions.filter((r) => r.kind !== 'tab')]
    .map((r) => ({ id: r.id, isTab: r.kind === 'tab', name: words.names.region(scene.value, r.id), spots: spotsOf(current.report, r.id), ...(photo && { photo }) }))
    .filter(({ spots }) => Object.keys(spots).length > 0);
});

/** What the user chose, by region id or `TYPED`; for the photo that is open. */
export const chosen = signal<Partial<Record<Role, string>>>({});
export const typed = signal<Partial<Record<Role, TypedSide>>>({});

/** The choice, or the likeliest: tabs in their order (teeth are not for painting), and of the result those with the names of the task. */
export function choiceOf(role: Role): string {
  const all = options.value;
  const mine = chosen.value[role];
  if (mine === TYPED || all.some((o) => o.id === mine)) return mine!;
  const { task } = exercise.value;
  const [first, second] = all.filter((o) => o.isTab);
  if (role === 'base') return first?.id ?? TYPED;
  if (role === 'target') return (second ?? all.find((o) => !o.isTab))?.id ?? TYPED;
  const named = all.find((o) => o.name === (role === 'got' ? task?.base.name : task?.target.name));
  return named?.id ?? (role === 'now' && task && Object.values(task.target.spots)[0]?.doubt === 0 ? TYPED : ((role === 'got' ? first : second)?.id ?? TYPED));
}

/** What stands in the fields of a side. */
export const typedNow = (role: Role): TypedSide => typed.value[role] ?? (role === 'now' && exercise.value.task ? typedOf(exercise.value.task.target) : EMPTY_SIDE);

/** A side as it stands; `null` while it is not complete. */
export function sideOf(role: Role): Side | null {
  const choice = choiceOf(role);
  if (choice !== TYPED) return options.value.find((o) => o.id === choice) ?? null;
  const { task } = exercise.value;
  // Until something else is typed the target is that of the task.
  if (role === 'now' && task && !typed.value.now) return task.target;
  const spots = typedSpots(typedNow(role));
  return spots && { name: words.practice.typedName, spots };
}
