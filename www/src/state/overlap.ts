/** How far two outlines are the same. Pure; a grid of samples is fine enough to tell them apart. */
import type { FoundRegion, Point } from '../engine/types';
import { boundsOf, contains } from './shapes';

const SAMPLES = 40;

/** Common area over joint area, 0–1. */
export function overlap(a: readonly Point[], b: readonly Point[]): number {
  const { left, top, right, bottom } = boundsOf([...a, ...b]);
  let [both, either] = [0, 0];
  for (let j = 0; j < SAMPLES; j++) {
    for (let i = 0; i < SAMPLES; i++) {
      const at: Point = [left + ((i + 0.5) / SAMPLES) * (right - left), top + ((j + 0.5) / SAMPLES) * (bottom - top)];
      const [inA, inB] = [contains(a, at), contains(b, at)];
      if (inA && inB) both++;
      if (inA || inB) either++;
    }
  }
  return either > 0 ? both / either : 0;
}

/** Outlines as like as these look the same on the photo. */
const ALIKE = 0.93;

/** The choices that differ from the present outline and from each other, in their order. */
export function distinctFrom(present: readonly Point[], choices: readonly FoundRegion[]): FoundRegion[] {
  const kept: FoundRegion[] = [];
  for (const choice of choices) {
    const alike = [present, ...kept.map((k) => k.outline)].some((o) => overlap(o, choice.outline) > ALIKE);
    if (!alike) kept.push(choice);
  }
  return kept;
}
