/** From and to typed by hand, for a plan without a photo. Pure. */
import { THIRDS, type Zone } from '../../engine/types';
import { isBlank, labOf, type LabText } from './draft';
import type { WorkZone } from './work';

export type Third = (typeof THIRDS)[number];

export interface TypedZone {
  readonly from: LabText;
  readonly to: LabText;
  /** ± ΔE00 of their difference, where they were read and not typed. */
  readonly doubt?: number;
}

export type TypedPlan = Readonly<Record<Third, TypedZone>>;

const BLANK: TypedZone = { from: ['', '', ''], to: ['', '', ''] };
export const EMPTY_TYPED: TypedPlan = { cervical: BLANK, middle: BLANK, incisal: BLANK };

/** Thirds of which something but not enough is typed. */
export const unfinished = (typed: TypedPlan): Zone[] =>
  THIRDS.filter((zone) => {
    const { from, to } = typed[zone];
    return !(isBlank(from) && isBlank(to)) && !(labOf(from) && labOf(to));
  });

/** Thirds that both colours are typed of; typed values are taken as exact, read ones keep their doubt. */
export const typedZones = (typed: TypedPlan): WorkZone[] =>
  THIRDS.flatMap((zone) => {
    const [from, to] = [labOf(typed[zone].from), labOf(typed[zone].to)];
    return from && to ? [{ zone, from, to, doubt: typed[zone].doubt ?? 0 }] : [];
  });
