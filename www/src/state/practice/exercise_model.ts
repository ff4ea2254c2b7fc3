/** From two sides to what is asked of the engine, and attempts by who made them. Pure. */
import type { Learner } from '../../charts/learning_layout';
import { THIRDS, type PlanZone, type PracticeRequest } from '../../engine/types';
import { apart, carried, type ByThird, type Spot } from '../passes/frame';
import { isBlank, labOf, type LabText } from '../stains/draft';
import type { Attempt, Side, Task } from './exercise';

/** Typed values are taken as exact. */
const isTyped = ({ doubt }: Spot): boolean => doubt === 0;

const between = (a: Spot, b: Spot): number => (isTyped(a) || isTyped(b) ? Math.hypot(a.doubt, b.doubt) : apart(a, b));

export type TypedSide = Readonly<Record<(typeof THIRDS)[number], LabText>>;

const BLANK: LabText = ['', '', ''];
export const EMPTY_SIDE: TypedSide = { cervical: BLANK, middle: BLANK, incisal: BLANK };

/** Thirds that a colour is typed of; `null` while one is half typed or there is none. */
export function typedSpots(typed: TypedSide): ByThird<Spot> | null {
  const spots: ByThird<Spot> = {};
  for (const zone of THIRDS) {
    if (isBlank(typed[zone])) continue;
    const lab = labOf(typed[zone]);
    if (!lab) return null;
    spots[zone] = { lab, doubt: 0, doubt_in_photo: 0 };
  }
  return Object.keys(spots).length > 0 ? spots : null;
}

/** The thirds that both sides have. */
export const taskZones = (base: Side, target: Side): PlanZone[] =>
  THIRDS.flatMap((zone) => {
    const [from, to] = [base.spots[zone], target.spots[zone]];
    return from && to ? [{ zone, from: from.lab, to: to.lab, doubt: between(from, to) }] : [];
  });

/** The base as it would have read in the photo of the result, by what both say about the target. */
export function practiceRequest(task: Task, got: Side, target: Side): PracticeRequest {
  return {
    zones: THIRDS.flatMap((zone): PracticeRequest['zones'] => {
      const [base, was, now, out] = [task.base.spots[zone], task.target.spots[zone], target.spots[zone], got.spots[zone]];
      if (!base || !was || !now || !out) return [];
      const before = isTyped(base) || isTyped(was) || isTyped(now) ? base.lab : carried(base.lab, was.lab, now.lab);
      return [{
        zone, base: before, got: out.lab, target: now.lab, doubt: between(out, now),
        ...(out.blotch !== undefined && { blotch: out.blotch }), ...(now.blotch !== undefined && { target_blotch: now.blotch }),
      }];
    }),
  };
}

/** Nothing but the base as it was: the same photo. */
export const isUnpainted = (task: Task, got: Side): boolean =>
  THIRDS.every((zone) => got.spots[zone]?.lab.every((v, i) => v === task.base.spots[zone]?.lab[i]) ?? task.base.spots[zone] === undefined);

/** One line per label, in the order in which they first appear. */
export function learnersOf(attempts: readonly Attempt[], nobody: string): Learner[] {
  const names = [...new Set(attempts.map((a) => a.who))];
  return names.map((who) => ({ name: who || nobody, left: attempts.filter((a) => a.who === who).map((a) => a.score.colour) }));
}
