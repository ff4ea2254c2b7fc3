/** From a plan and a photo of what came out to the pass that the engine looks back at. Pure. */
import { THIRDS, type Lab, type Paint, type Pass, type Plan, type PlanLimits, type Predicted, type Swatch, type UnfiredRequest } from '../../engine/types';
import type { WorkZone } from '../stains/work';
import { apart, carried, type ByThird, type Spot, type Third } from './frame';
import type { Blotches, KeptPass, KeptUnfired } from './kept_pass';

/** What is painted on a third for the first firing of a plan, and what is predicted of it. */
export interface Painted {
  readonly zone: Third;
  readonly paint: Paint;
  readonly predicted: Predicted;
}

const NO_PAINT: Paint = { mix: [], coats: 0 };

export function paintedOf({ zones, steps, firings }: Plan): Painted[] {
  return zones.flatMap(({ zone, paint, predicted, from, firings: needed }): Painted[] => {
    if (zone === 'whole') return [];
    // Finished in the first firing: what is predicted of it in the end.
    if (firings <= 1 || needed <= 1) return [{ zone, paint, predicted }];
    const step = steps.find((s) => s.kind === 'paint' && s.firing === 1 && s.zones.includes(zone));
    const expected = step?.expect[step.zones.indexOf(zone)];
    return [{ zone, paint: step?.paint ?? NO_PAINT, predicted: expected ?? { lab: from, doubt: predicted.doubt } }];
  });
}

/** Restoration and target as the open photo shows them. */
export interface Seen {
  readonly restoration: ByThird<Spot>;
  readonly target: ByThird<Spot>;
}

/** How one third of a photo is set beside the plan: the plan's colours carried into the photo, and the target there. */
function beside(zone: WorkZone, seen: Spot, target: Spot | undefined) {
  if (target) return { carry: (lab: Lab) => carried(lab, zone.to, target.lab), target: target.lab, doubt: apart(seen, target) };
  // Of two photos each reading has its own doubt; typed values have none.
  return { carry: (lab: Lab) => lab, target: zone.to, doubt: zone.doubt === 0 ? seen.doubt : Math.SQRT2 * seen.doubt };
}

const known = (all: { [K in keyof Blotches]: number | undefined }): Blotches => Object.fromEntries(Object.entries(all).filter(([, v]) => v !== undefined));

export type MadePass = Pick<KeptPass, 'pass' | 'blotch' | 'carried'>;

export function passOf(zones: readonly WorkZone[], painted: readonly Painted[], limits: PlanLimits, seen: Seen): MadePass {
  const blotch: ByThird<Blotches> = {};
  const thirds = painted.flatMap(({ zone, paint, predicted }): Pass['zones'] => {
    const [from, got] = [zones.find((z) => z.zone === zone), seen.restoration[zone]];
    if (!from || !got) return [];
    const { carry, target, doubt } = beside(from, got, seen.target[zone]);
    blotch[zone] = known({ before: from.blotch, after: got.blotch, target: seen.target[zone]?.blotch });
    return [{ zone, paint, before: carry(from.from), predicted: carry(predicted.lab), predicted_doubt: predicted.doubt, got: got.lab, target, doubt }];
  });
  return { pass: { foundation: limits.foundation ?? false, limits, zones: thirds }, blotch, carried: thirds.length > 0 && thirds.every(({ zone }) => seen.target[zone as Third] !== undefined) };
}

/** The thirds that bear paint as swatches, on what lay under it. Two readings stand behind each of their colours. */
export function swatchesOf({ zones }: Pass, plan: readonly WorkZone[], under: ByThird<Lab>, unfired: KeptUnfired | null, note: (zone: Third) => string): Swatch[] {
  return zones.flatMap(({ zone, paint: { mix, coats }, before, got, target, doubt }): Swatch[] => {
    const third = THIRDS.find((t) => t === zone);
    const only = mix[0];
    if (!third || !only || coats <= 0) return [];
    const look = unfired?.spots[third]?.lab;
    const from = unfired?.target[third]?.lab ?? plan.find((z) => z.zone === zone)?.to;
    return [{
      ...(mix.length === 1 ? { stain: only.stain } : { mix: Object.fromEntries(mix.map(({ stain, parts }) => [stain, parts / 10])) }),
      coats, base: under[third] ?? before, after: got, ...(look && from && { unfired: carried(look, from, target) }), doubt, note: note(third),
    }];
  });
}

/** What the look before firing asks of the engine. */
export function unfiredOf(zones: readonly WorkZone[], painted: readonly Painted[], seen: Seen): UnfiredRequest {
  return {
    zones: painted.flatMap(({ zone, predicted }): UnfiredRequest['zones'] => {
      const [from, now] = [zones.find((z) => z.zone === zone), seen.restoration[zone]];
      if (!from || !now) return [];
      const { carry, doubt } = beside(from, now, seen.target[zone]);
      const [before, blotch] = [from.blotch, now.blotch];
      return [{
        zone, before: carry(from.from), unfired: now.lab, predicted: carry(predicted.lab), predicted_doubt: predicted.doubt, doubt,
        ...(before !== undefined && { blotch_before: before }), ...(blotch !== undefined && { blotch }),
      }];
    }),
  };
}

/** The result of a pass as the start of the next. */
export const nextZones = ({ pass, blotch }: KeptPass): WorkZone[] =>
  pass.zones.map(({ zone, got, target, doubt }) => {
    const after = blotch[zone as Third]?.after;
    return { zone, from: got, to: target, doubt, ...(after !== undefined && { blotch: after }) };
  });

const same = (a: Lab, b: Lab): boolean => a.every((v, i) => Math.abs(v - b[i]!) < 1e-6);

/** Whether the job starts from where a pass ended. */
export const startsFrom = (zones: readonly WorkZone[], { pass }: KeptPass): boolean =>
  pass.zones.every(({ zone, got }) => zones.some((z) => z.zone === zone && same(z.from, got)));

/** Whether a photo shows nothing but what the job started from: the same photo. */
export const isStart = (zones: readonly WorkZone[], { restoration }: Seen): boolean =>
  zones.length > 0 && zones.every(({ zone, from }) => zone !== 'whole' && restoration[zone] !== undefined && same(restoration[zone].lab, from));

/** Whether a photo is the one that was looked at before firing. */
export const isLookedAt = ({ spots }: KeptUnfired, { restoration }: Seen): boolean =>
  THIRDS.every((zone) => (spots[zone] === undefined) === (restoration[zone] === undefined) && (!spots[zone] || same(spots[zone].lab, restoration[zone]!.lab)));

/** The target may read somewhat differently in another photo (ΔE*ab); not like another tooth. */
const MAX_DRIFT = 5;

export const isStrange = (drift = 0): boolean => drift > MAX_DRIFT;

/** How far apart the target reads in the two photos, largest third, ΔE*ab. */
export const targetDrift = (zones: readonly WorkZone[], { target }: Seen): number =>
  Math.max(0, ...zones.map(({ zone, to }) => (zone !== 'whole' && target[zone] ? Math.hypot(...to.map((v, i) => v - target[zone]!.lab[i]!)) : 0)));
