/** From two sides to what is asked of the engine, and attempts by who made them. Pure. */
import type { Learner } from '../../charts/learning_layout';
import { THIRDS, type PlanZone, type PracticeRequest } from '../../engine/types';
import { apart, carried, type ByThird, type Spot } from '../passes/frame';
import { isBlank, labOf, typedLab, type LabText } from '../stains/draft';
import type { Attempt, Exercise, Side, Task } from './exercise';

/** Typed values are taken as exact. */
const isTyped = ({ doubt }: Spot): boolean => doubt === 0;

/** Of two photos each reading has its own doubt. */
const between = (a: Spot, b: Spot, onePhoto: boolean): number => (isTyped(a) || isTyped(b) || !onePhoto ? Math.hypot(a.doubt, b.doubt) : apart(a, b));

export type TypedSide = Readonly<Record<(typeof THIRDS)[number], LabText>>;

const BLANK: LabText = ['', '', ''];
export const EMPTY_SIDE: TypedSide = { cervical: BLANK, middle: BLANK, incisal: BLANK };

/** A side in the fields. */
export const typedOf = ({ spots }: Side): TypedSide => Object.fromEntries(THIRDS.map((zone) => [zone, spots[zone] ? typedLab(spots[zone].lab) : BLANK])) as TypedSide;

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
    return from && to ? [{ zone, from: from.lab, to: to.lab, doubt: between(from, to, base.photo === target.photo) }] : [];
  });

/** The base as it would have read in the photo of the result, by what both say about the target. */
export function practiceRequest(task: Task, got: Side, target: Side): PracticeRequest {
  return {
    zones: THIRDS.flatMap((zone): PracticeRequest['zones'] => {
      const [base, was, now, out] = [task.base.spots[zone], task.target.spots[zone], target.spots[zone], got.spots[zone]];
      if (!base || !was || !now || !out) return [];
      const before = isTyped(base) || isTyped(was) || isTyped(now) ? base.lab : carried(base.lab, was.lab, now.lab);
      return [{
        zone, base: before, got: out.lab, target: now.lab, doubt: between(out, now, got.photo === target.photo),
        ...(out.blotch !== undefined && { blotch: out.blotch }), ...(now.blotch !== undefined && { target_blotch: now.blotch }),
      }];
    }),
  };
}

/** Read in the photo that the base was read in, before it was painted. */
export const inPhotoOfBase = ({ base }: Task, got: Side): boolean => base.photo !== undefined && got.photo === base.photo;

/** The newest attempt at the exercise at hand. */
export const lastAttempt = ({ task, attempts }: Exercise): Attempt | undefined => (task?.at ? attempts.filter((a) => a.task === task.at).at(-1) : undefined);

/** Nothing but the base as it was. */
export const isUnpainted = (task: Task, got: Side): boolean =>
  THIRDS.every((zone) => got.spots[zone]?.lab.every((v, i) => v === task.base.spots[zone]?.lab[i]) ?? task.base.spots[zone] === undefined);

/** One line per label, in the order in which they first appear. */
export function learnersOf(attempts: readonly Attempt[], nobody: string): Learner[] {
  const names = [...new Set(attempts.map((a) => a.who))];
  return names.map((who) => ({ name: who || nobody, left: attempts.filter((a) => a.who === who).map((a) => a.score.colour) }));
}
