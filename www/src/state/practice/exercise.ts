/** Practice as it is kept on the device: the exercise at hand, and the attempts so far. */
import type { Plan, PracticeRequest, PracticeScore } from '../../engine/types';
import type { ByThird, Spot } from '../passes/frame';

/** One side of an exercise: a tab as it was read, or values that were typed. */
export interface Side {
  readonly name: string;
  readonly spots: ByThird<Spot>;
  /** The photo that it was read in (see `fingerprint`); none for typed values. */
  readonly photo?: string;
}

/** From which tab to which, and how to paint it. */
export interface Task {
  readonly base: Side;
  readonly target: Side;
  /** Missing when no stain is known yet. */
  readonly plan: Plan | null;
  /** When it was planned, ISO 8601: attempts at it say so. */
  readonly at?: string;
}

/** An exercise that was scored. */
export interface Attempt {
  /** A person or a team, in the user's words; may be empty. */
  readonly who: string;
  readonly base: string;
  readonly target: string;
  readonly request: PracticeRequest;
  readonly score: PracticeScore;
  /** The exercise that it was made at, by its time. */
  readonly task?: string;
  /** When, ISO 8601. */
  readonly at: string;
}

export interface Exercise {
  readonly who: string;
  readonly task: Task | null;
  /** The oldest first. */
  readonly attempts: readonly Attempt[];
}

export const EMPTY_EXERCISE: Exercise = { who: '', task: null, attempts: [] };
