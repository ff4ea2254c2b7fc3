/** What the list says about a photo: what is marked in it, and the gravest of its light checks. Pure. */
import type { LightCheck, Scene } from '../../engine/types';

export interface Marked {
  readonly card: boolean;
  readonly tabs: number;
  readonly teeth: number;
}

export function markedIn({ card, regions }: Scene): Marked {
  const tabs = regions.filter((r) => r.kind === 'tab').length;
  return { card: card !== null, tabs, teeth: regions.length - tabs };
}

export interface Gravest {
  readonly first: LightCheck;
  /** How many more speak against the photo. */
  readonly more: number;
}

/** A card that is not marked yet comes first: nothing else can be told without it. */
export function gravest(checks: readonly LightCheck[]): Gravest | null {
  const against = checks.filter((c) => c.severity !== 'note');
  const first = against.find((c) => c.code === 'card-missing') ?? against.find((c) => c.severity === 'retake') ?? against[0];
  return first ? { first, more: against.length - 1 } : null;
}
