/**
 * What a patient is told about two surfaces, as codes: how much, in what way, where. Never more than
 * the doubt allows. Pure: the thirds' differences in, codes out; the catalogue makes the sentence.
 */
import { THIRDS, type ZoneAdvice } from '../../engine/types';
import { ACCEPTABILITY_DELTA_E_00 as CORRECTED, PERCEPTIBILITY_DELTA_E_00 as SEEN } from '../../charts/ladder_layout';
import { isTold } from '../sheet_model';
import type { Third } from '../stains/typed_plan';

export { SEEN, CORRECTED };
/** Twice what half would want corrected: our own choice, no source. */
const MUCH = 3.6;
/** A smaller part of a difference is not what one sees first; our own choice. */
const DOMINANT = 0.5;
/** A third that shows so much of the largest is not told from it; our own choice. */
const EVENLY = 2 / 3;
/** Hue is spoken of as yellow and red at the hue angles of teeth, with chroma enough to see it. */
const TOOTH_HUE_DEG = [30, 130] as const;
const LEAST_CHROMA = 5;

export type Way = 'brighter' | 'darker' | 'stronger' | 'paler' | 'yellower' | 'redder';
export const AMOUNTS = ['little', 'clearly', 'much'] as const;
export type Amount = (typeof AMOUNTS)[number];

export interface Where {
  readonly thirds: readonly Third[];
  /** All of it shows it, these most. */
  readonly mostly: boolean;
}

/** Without a way it is only different. */
export interface Clause {
  readonly amount: Amount;
  readonly ways: readonly Way[];
  readonly where: Where;
}

export type Difference =
  | { readonly kind: 'unsure' | 'alike' | 'hardly' }
  /** `colourOnly`: light and dark are alike for certain. */
  | { readonly kind: 'differs'; readonly clauses: readonly Clause[]; readonly colourOnly: boolean };

/** A third of the restoration against the same third of what it is compared with. */
export type Compared = Pick<ZoneAdvice, 'delta_e_00' | 'doubt' | 'delta_l' | 'delta_c' | 'delta_h'> & {
  readonly zone: Third;
  /** Of the target. */
  readonly hue_deg: number;
  readonly chroma: number;
};

/** Seen by most, and for certain. */
const isSeen = (third: Compared): boolean => third.delta_e_00 > SEEN && isTold(third);

/** One class less where the difference could as well be two classes less. */
function amountOf(size: number, doubt: number): Amount {
  if (size > MUCH && size - doubt > CORRECTED) return 'much';
  return size > CORRECTED && size - doubt > SEEN ? 'clearly' : 'little';
}

const largest = (amounts: readonly Amount[]): Amount => AMOUNTS[Math.max(...amounts.map((a) => AMOUNTS.indexOf(a)))]!;

/** The parts that dominate and are beyond the doubt, with their sizes. */
function waysOf({ delta_l, delta_c, delta_h, doubt, hue_deg, chroma }: Compared): Map<Way, number> {
  const toothHue = hue_deg >= TOOTH_HUE_DEG[0] && hue_deg <= TOOTH_HUE_DEG[1] && chroma >= LEAST_CHROMA;
  const parts: [number, Way, Way][] = [[delta_l, 'brighter', 'darker'], [delta_c, 'stronger', 'paler'], [delta_h, 'yellower', 'redder']];
  const most = Math.max(...parts.map(([part]) => Math.abs(part)));
  const said = parts.filter(([part, up]) => Math.abs(part) >= DOMINANT * most && Math.abs(part) > doubt && (up !== 'yellower' || toothHue));
  return new Map(said.map(([part, up, down]) => [part > 0 ? up : down, Math.abs(part)]));
}

/** Where a size is found, and whether it is found everywhere but mostly there. */
function whereOf(sizes: ReadonlyMap<Third, number>): Where {
  const most = Math.max(...sizes.values());
  const strong = [...sizes.keys()].filter((zone) => sizes.get(zone)! >= EVENLY * most);
  const everywhere = sizes.size === THIRDS.length;
  return everywhere && strong.length < sizes.size ? { thirds: strong, mostly: true } : { thirds: [...sizes.keys()], mostly: false };
}

/** What is largest in all, and where; then what is nearly as large somewhere. */
function clausesOf(told: readonly Compared[]): Clause[] {
  const sizes = new Map<Way, Map<Third, number>>();
  for (const third of told) for (const [way, size] of waysOf(third)) sizes.set(way, (sizes.get(way) ?? new Map()).set(third.zone, size));
  const of = (way: Way) => [...sizes.get(way)!.values()];
  const sum = (way: Way) => of(way).reduce((a, b) => a + b, 0);
  const clause = (ways: readonly Way[], where: Where, size: (t: Compared) => number): Clause => ({
    amount: largest(told.filter((t) => where.thirds.includes(t.zone)).map((t) => amountOf(size(t), t.doubt))),
    ways,
    where,
  });
  const whole = (t: Compared) => t.delta_e_00;
  const [first, ...others] = [...sizes.keys()].sort((a, b) => sum(b) - sum(a));
  if (!first) return [clause([], whereOf(new Map(told.map((t) => [t.zone, whole(t)]))), whole)];
  const where = whereOf(sizes.get(first)!);
  const second = others.find((way) => Math.max(...of(way)) >= DOMINANT * Math.max(...of(first)));
  if (!second) return [clause([first], where, whole)];
  const other = whereOf(sizes.get(second)!);
  if (where.mostly === other.mostly && String(where.thirds) === String(other.thirds)) return [clause([first, second], where, whole)];
  return [clause([first], where, whole), clause([second], other, (t) => sizes.get(second)!.get(t.zone)!)];
}

export function differenceOf(thirds: readonly Compared[]): Difference {
  const told = thirds.filter(isSeen);
  const certainly = (size: (t: Compared) => number) => thirds.every((t) => size(t) + t.doubt <= SEEN);
  if (thirds.length === 0) return { kind: 'unsure' };
  if (certainly((t) => t.delta_e_00)) return { kind: 'alike' };
  if (told.length > 0) return { kind: 'differs', clauses: clausesOf(told), colourOnly: certainly((t) => Math.abs(t.delta_l)) };
  // Seen by few, as far as can be told; what could be as large as seen is not called so.
  const hardly = thirds.every((t) => t.delta_e_00 <= SEEN) && thirds.some(isTold);
  return { kind: hardly ? 'hardly' : 'unsure' };
}
