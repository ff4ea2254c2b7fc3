/** What the user says a plan is to be made of: limits, and colours typed by hand. */
import { computed } from '@preact/signals';
import type { PlanLimits } from '../../engine/types';
import { words } from '../../words';
import { say } from '../status';
import { usableStains } from './book';
import { USUAL_LIMITS } from './stains_doc';
import { changeStains } from './swatches';
import { EMPTY_TYPED, type Third, type TypedZone } from './typed_plan';
import { book, stains, work } from './work';

const edits = () => words.plan.edits;

/** Colours are typed; else they come from the photo. */
export const typing = computed(() => stains.value.typed !== null);
export const limits = computed(() => stains.value.limits);

/** The limits as they are now are not those that the job was planned with. */
export const limitsChanged = computed(() => {
  const planned = work.value?.plan.limits;
  return planned !== undefined && (Object.keys(USUAL_LIMITS) as (keyof PlanLimits)[]).some((k) => String(limits.value[k]) !== String(planned[k]));
});

export const changeLimits = (next: Partial<PlanLimits>, mergeKey: string | null = null): void => changeStains(edits().limits, { limits: { ...limits.value, ...next } }, mergeKey);

/** Only the named ones; none named means all. */
export function allowStain(name: string, on: boolean): void {
  const all = usableStains(book.value);
  const now = limits.value.stains.length ? limits.value.stains.filter((s) => all.includes(s)) : all;
  const next = on ? all.filter((s) => s === name || now.includes(s)) : now.filter((s) => s !== name);
  // With none left there would be nothing to plan with.
  if (next.length === 0) return say(words.plan.limits.lastStays);
  changeLimits({ stains: next.length === all.length ? [] : next });
}

export const typeColours = (on: boolean): void => changeStains(edits().source, { typed: on ? EMPTY_TYPED : null });

export function typeZone(zone: Third, next: Partial<TypedZone>): void {
  const now = stains.value.typed ?? EMPTY_TYPED;
  // What is typed over a reading is no reading any more.
  const { doubt: _, ...typed } = now[zone];
  changeStains(edits().typed, { typed: { ...now, [zone]: { ...typed, ...next } } }, `typed ${zone}`);
}
