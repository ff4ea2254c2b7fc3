/** The plan that the colours at hand ask for, and the steps that take it to work. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { desk } from '../../engine/instance';
import type { Plan, PlanLimits, SwatchBook, ZonePlan } from '../../engine/types';
import { words } from '../../words';
import { latestOnly } from '../latest';
import { describe, report } from '../problems';
import { say, type Problem } from '../status';
import { mode } from '../ui';
import { usableStains } from './book';
import { saidNames, TYPED_NAMES, type Called, type Names } from './called';
import { compared, comparison, type NoComparison } from './comparison';
import { limits, typing } from './plan_inputs';
import { typedZones } from './typed_plan';
import { book, changeWork, planAnew, putWork, stains, tick, work, type WorkZone } from './work';

/** From where to where: what a plan is made of, whatever it was read from. */
export interface Source {
  readonly names: Names<Called>;
  readonly zones: readonly WorkZone[];
}

export const source = computed<Source | null>(() => {
  const { typed } = stains.value;
  if (!typed) return compared.value;
  const zones = typedZones(typed);
  return zones.length ? { names: TYPED_NAMES, zones } : null;
});

export type Refusal = NoComparison | { why: 'no-swatches' | 'typed' };

/** Everything that stands in the way of a plan. */
export const refusals = computed<Refusal[]>(() => {
  const found: Refusal[] = [];
  if (!source.value) found.push(typing.value ? { why: 'typed' } : (comparison.value as NoComparison));
  if (usableStains(book.value).length === 0) found.push({ why: 'no-swatches' });
  return found;
});

interface Asked {
  source: Source;
  book: SwatchBook;
  limits: PlanLimits;
}

const made = signal<(Asked & { plan: Plan }) | null>(null);
export const planProblem = signal<Problem | null>(null);

const key = ({ source: { zones }, limits }: Asked): string => JSON.stringify([zones, limits]);

/** Without a job at hand: the plan of the colours as they are, once it is made. */
export const proposed = computed(() => (work.value || refusals.value.length || !made.value || made.value.book !== book.value ? null : made.value));

/** What is shown: the job's plan, else the proposed one. */
export const shownPlan = computed<Plan | null>(() => work.value?.plan ?? proposed.value?.plan ?? null);
/** ± on a predicted difference: that of the prediction and that of the two readings. */
export function differenceDoubt({ zone, predicted }: ZonePlan): number {
  const zones = work.value?.zones ?? proposed.value?.source.zones ?? [];
  return Math.hypot(predicted.doubt, zones.find((z) => z.zone === zone)?.doubt ?? 0);
}

/** In the language of the page. */
export const shownNames = computed(() => {
  const names = work.value ?? proposed.value?.source.names ?? source.value?.names;
  return names ? saidNames(names) : null;
});

const make = latestOnly<Asked>(async (asked) => {
  if (made.value?.book === asked.book && key(made.value) === key(asked)) return;
  try {
    const zones = asked.source.zones.map(({ blotch: _, ...zone }) => zone);
    const plan = await desk.stains.plan(asked.book, { zones, limits: asked.limits });
    made.value = { ...asked, plan };
    planProblem.value = null;
    say(words.plan.made(plan.firings, plan.zones.filter((z) => z.paint.coats > 0).length));
  } catch (error) {
    made.value = null;
    planProblem.value = { title: words.errors.planFailed, ...describe(error) };
  }
});

export function startPlanning(): () => void {
  return effect(() => {
    const now = source.value;
    if (mode.value !== 'plan' || work.value || !now || refusals.value.length) return;
    const asked = { source: now, book: book.value, limits: limits.value };
    untracked(() => make(asked));
  });
}

const edits = () => words.plan.edits;

/** What the user calls the next job, before it begins. */
export const nextLabel = signal('');
export const label = computed(() => work.value?.label ?? nextLabel.value);

export function nameWork(text: string): void {
  if (work.value) changeWork(edits().label, { label: text }, 'label');
  else nextLabel.value = text;
}

/** Takes the proposed plan in hand, with the steps that are done already. */
export function begin(ticks: readonly number[] = []): void {
  const now = proposed.value;
  if (!now) return;
  const { names, zones } = now.source;
  putWork(edits().begin, { label: nextLabel.value.trim(), ...names, zones, plan: now.plan, ticks, passes: [] });
  nextLabel.value = '';
  say(words.plan.begun);
}

export function tickStep(step: number, done: boolean): void {
  if (work.value) tick(step, done);
  else begin(done ? [step] : []);
}

export const putAway = (): void => putWork(edits().putAway, null);

export async function planAgain(): Promise<void> {
  try {
    await planAnew(edits().again, work.value?.zones ?? []);
  } catch (error) {
    report(words.errors.planFailed, error);
  }
}
