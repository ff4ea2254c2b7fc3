/** The printed values of the steps found on the card, while they are typed. Pure. */
import type { Card, CardStep, Lab, Point } from '../engine/types';
import { numberOf } from './typed_number';

export type StepCells = readonly [string, string, string];

export type StepFault = 'range' | 'few';

const orNone = (text: string): number => (text.trim() === '' ? 0 : numberOf(text));
const fits = ([l, a, b]: Lab): boolean => l >= 1 && l <= 100 && Math.abs(a) <= 30 && Math.abs(b) <= 30;

/** Steps without L* are left out; a* and b* that are not printed are those of a neutral grey. */
export function stepsTyped(outlines: readonly Point[][], cells: readonly StepCells[]): CardStep[] | StepFault {
  const steps = outlines.flatMap((outline, i): CardStep[] => {
    const [l, a, b] = cells[i] ?? ['', '', ''];
    return l.trim() === '' ? [] : [{ outline, lab: [numberOf(l), orNone(a), orNone(b)] }];
  });
  if (!steps.every((s) => fits(s.lab))) return 'range';
  return steps.length < 2 ? 'few' : steps;
}

/** The steps take the place of the one patch. */
export const withSteps = (steps: CardStep[]): Card => ({ outline: [], steps });
