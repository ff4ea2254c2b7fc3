/**
 * The job at hand: from where to where, the plan, what is done of it, and what came out of earlier
 * passes. It outlives the photo: after firing another one is opened.
 */
import { computed } from '@preact/signals';
import { desk } from '../../engine/instance';
import type { Plan, PlanZone } from '../../engine/types';
import { words } from '../../words';
import { change, doc } from '../desk';
import type { KeptPass, KeptUnfired } from '../passes/kept_pass';
import { say } from '../status';
import type { Called, Names } from './called';
import { bookInUse } from './stains_doc';

/** A third from its colour now to its target. */
export interface WorkZone extends PlanZone {
  /** Unevenness of the restoration there (ΔE00), when it was read. */
  blotch?: number;
}

export interface Work extends Names<Called> {
  /** What the user calls it: a case number, a tooth. */
  readonly label: string;
  /** Before the pass that is planned now. */
  readonly zones: readonly WorkZone[];
  readonly plan: Plan;
  /** Places in `plan.steps` that are done. */
  readonly ticks: readonly number[];
  /** Fired passes, the oldest first. */
  readonly passes: readonly KeptPass[];
  /** What is painted, read before firing. */
  readonly unfired?: KeptUnfired | null;
}

export const stains = computed(() => doc.value.stains);
export const work = computed(() => stains.value.work);
/** The book that plans are made with. */
export const book = computed(() => bookInUse(stains.value));

/** Changes the job at hand as one step of undo; nothing without a job. */
export function changeWork(label: string, next: Partial<Work>, mergeKey: string | null = null): void {
  const now = work.value;
  if (now) change(label, { stains: { ...stains.value, work: { ...now, ...next } } }, mergeKey);
}

/** Takes a job in hand, or puts it away (`null`). */
export function putWork(label: string, next: Work | null): void {
  change(label, { stains: { ...stains.value, work: next } });
}

export const isTicked = (step: number): boolean => work.value?.ticks.includes(step) ?? false;

export function tick(step: number, done: boolean): void {
  const now = work.value;
  if (!now || isTicked(step) === done) return;
  const ticks = done ? [...now.ticks, step].sort((a, b) => a - b) : now.ticks.filter((s) => s !== step);
  changeWork(words.plan.edits.tick(step + 1, done), { ticks });
  say(words.plan.ticked(step + 1, now.plan.steps.length, done));
}

/**
 * Plans anew from other colours, with nothing ticked: for the next pass. `also` goes into the same
 * step of undo. Throws what the engine throws.
 */
export async function planAnew(label: string, zones: readonly WorkZone[], also: Partial<Work> = {}): Promise<void> {
  const { limits } = stains.value;
  const before = work.value;
  const plan = await desk.stains.plan(book.value, { zones: zones.map(({ blotch: _, ...zone }) => zone), limits });
  if (work.value === before) changeWork(label, { ...also, zones, plan, ticks: [] });
}
