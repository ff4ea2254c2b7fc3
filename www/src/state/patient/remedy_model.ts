/** What a plan promises a patient: at most what it predicts, less where its doubt or a shortfall says so. Pure. */
import type { Plan, ShortfallCode, ZonePlan } from '../../engine/types';
import { CORRECTED, SEEN, type Difference } from './sentence_model';

export type Remedy =
  /** Paint takes light away; a crown that is too dark needs something else. */
  | { readonly kind: 'darkens' }
  /** Nothing worth painting. */
  | { readonly kind: 'no-gain' }
  | {
      readonly kind: 'together' | 'closer-maybe' | 'closer';
      /** In all firings, where most are painted; begun ones count whole. */
      readonly coats: number;
      /** It may look flatter. */
      readonly price: boolean;
    };

export interface Planned {
  readonly zones: readonly Pick<ZonePlan, 'zone' | 'from' | 'paint' | 'predicted' | 'after_delta_e_00'>[];
  readonly shortfalls: readonly Pick<Plan['shortfalls'][number], 'code'>[];
  /** ± on what is left of each third, ΔE00: that of the prediction and that of both readings. */
  readonly doubts: readonly number[];
}

/** Reached, but at a price. */
const PRICES: readonly ShortfallCode[] = ['lightened-at-a-price', 'opaque'];
/** A smaller rise of L* is not called lightening; as the engine has it. */
const LIGHTENED = 0.3;

/** Nothing without a difference that can be told. `plan` is none without one, or with an invented one. */
export function remedyOf(difference: Difference, plan: Planned | null): Remedy | null {
  if (difference.kind !== 'differs') return null;
  const darker = difference.clauses.some((c) => c.ways.includes('darker'));
  if (!plan) return darker ? { kind: 'darkens' } : null;
  const short = plan.shortfalls.filter((s) => !PRICES.includes(s.code));
  const lightens = plan.zones.some(({ from, predicted }) => predicted.lab[0] > from[0] + LIGHTENED);
  const coats = Math.ceil(Math.max(0, ...plan.zones.map((z) => z.paint.coats)));
  if (darker && !lightens && (coats === 0 || short.some((s) => s.code === 'target-lighter'))) return { kind: 'darkens' };
  if (coats === 0) return { kind: 'no-gain' };
  const all = (fits: (left: number, doubt: number) => boolean) => short.length === 0 && plan.zones.every((z, i) => fits(z.after_delta_e_00, plan.doubts[i]!));
  const together = all((left, doubt) => left <= SEEN && left + doubt <= CORRECTED);
  const maybe = all((left, doubt) => left <= Math.max(SEEN, doubt));
  return { kind: together ? 'together' : maybe ? 'closer-maybe' : 'closer', coats, price: plan.shortfalls.length > short.length };
}
