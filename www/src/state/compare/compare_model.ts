/** One region against another, each of any open photo. Pure: reports in, pairs of colours and reasons out. */
import type { Series } from '../../charts/series';
import type { OpenPhoto } from '../../engine/desk';
import { THIRDS, type Colour, type ColourPair, type LightCheck, type Region, type RegionReading, type Report, type Trust, type Zone } from '../../engine/types';
import { bordersOf, onSheet } from '../borders';
import { EMPTY_DOC, type Doc } from '../doc';
import { pendingRestoration, targetOf } from '../roles';
import { regionById } from '../shapes';
import { ladderOfZone, nearestOn, retakeOf, type Nearest } from '../sheet_model';
import { EMPTY_TYPED, type TypedPlan } from '../stains/typed_plan';
import { typedLab } from '../stains/draft';

/** An open photo, looked at or not, with what was read of it. */
export interface OpenOne {
  readonly photo: OpenPhoto;
  readonly made: Pick<Doc, 'scene' | 'target' | 'proposal'>;
  readonly report: Report | null;
}

/** A region of an open photo. */
export interface Place {
  readonly handle: number;
  readonly region: string;
}

export const SIDES = ['restoration', 'target'] as const;
export type Side = (typeof SIDES)[number];
export type Picks = Readonly<Record<Side, Place | null>>;

/** A place that is there, and its reading when it may be trusted. */
export interface Sided {
  readonly of: OpenOne;
  readonly region: Region;
  readonly reading: RegionReading | undefined;
}

/** Why there are no numbers for a place. */
export type Reason = { readonly why: 'waiting' | 'no-reading' } | { readonly why: 'retake'; readonly check: LightCheck };

export function sideAt(photos: readonly OpenOne[], place: Place | null): Sided | null {
  const of = photos.find((p) => p.photo.handle === place?.handle);
  const region = of && regionById(of.made.scene, place?.region);
  if (!of || !region) return null;
  return { of, region, reading: reasonOf(of.report, region.id) ? undefined : readingOf(of.report, region.id) };
}

const readingOf = (report: Report | null, region: string): RegionReading | undefined => report?.readings.find((r) => r.region === region);

/** A photo that has to be taken again gives no number, nor does a region that cannot be trusted. */
export function reasonOf(report: Report | null, region: string): Reason | null {
  if (!report) return { why: 'waiting' };
  const check = retakeOf(report.checks) ?? retakeOf(report.checks, region);
  if (check) return { why: 'retake', check };
  return readingOf(report, region) ? null : { why: 'no-reading' };
}

const ofKind = ({ made }: OpenOne, kind: Region['kind']): Region | undefined => made.scene.regions.find((r) => r.kind === kind);

const docOf = ({ made }: OpenOne): Doc => ({ ...EMPTY_DOC, ...made });

/** What may be the restoration there, while nobody has said so. */
const pendingOf = (one: OpenOne): Region | undefined => pendingRestoration(docOf(one)) ?? undefined;

/** Only taken as the restoration: the question is still open. */
export const isSuspected = ({ of, region }: Sided): boolean => pendingOf(of)?.id === region.id;

const judgedOf = (one: OpenOne): Region | undefined => ofKind(one, 'restoration') ?? pendingOf(one);

/** A tooth that stays one. */
const naturalOf = (one: OpenOne): Region | undefined => one.made.scene.regions.find((r) => r.kind === 'tooth' && r.id !== pendingOf(one)?.id);

const wantedOf = (one: OpenOne): Region | undefined => regionById(one.made.scene, targetOf(docOf(one))) ?? naturalOf(one);

/**
 * Who is compared while nobody chose: the restoration of one photo with the target of another. A
 * photo with a restoration and no other tooth is one from the bench and comes first; one that was
 * called so comes before one that is suspected; a photo without a restoration is the other one's first.
 */
export function usualPicks(open: readonly OpenOne[]): Picks {
  // A photo that has to be taken again is the last to be compared with.
  const spoiled = ({ report }: OpenOne) => (report && retakeOf(report.checks) ? 1 : 0);
  const photos = [...open].sort((a, b) => spoiled(a) - spoiled(b));
  const placed = (one: OpenOne, region: Region | undefined): Place | null => (region ? { handle: one.photo.handle, region: region.id } : null);
  const said = (p: OpenOne) => ofKind(p, 'restoration');
  const judged = photos.find((p) => said(p) && !naturalOf(p)) ?? photos.find(said) ?? photos.find((p) => judgedOf(p) && !naturalOf(p)) ?? photos.find(judgedOf);
  const wanted = photos.filter((p) => p !== judged && wantedOf(p));
  const sound = wanted.filter((p) => !spoiled(p));
  const others = sound.length > 0 ? sound : wanted;
  const other = others.find((p) => !judgedOf(p)) ?? others[0];
  // Without a restoration a tooth is judged: that of another photo than the one it is compared with.
  const instead = judged ?? photos.find((p) => p !== other && wantedOf(p));
  return {
    restoration: instead ? placed(instead, judgedOf(instead) ?? wantedOf(instead)) : null,
    target: other ? placed(other, wantedOf(other)) : null,
  };
}

/** As chosen, as long as it is there; what was not chosen is as usual. */
export function picksOf(photos: readonly OpenOne[], chosen: Picks): Picks {
  const usual = usualPicks(photos);
  const kept = (side: Side) => (sideAt(photos, chosen[side]) ? chosen[side] : usual[side]);
  return { restoration: kept('restoration'), target: kept('target') };
}

export const inOnePhoto = (a: Sided, b: Sided): boolean => a.of.photo.handle === b.of.photo.handle;

export interface ThirdPair {
  readonly zone: Zone;
  readonly pair: ColourPair;
}

/** The target is the reference. Inside one photo most of the error is shared; across two each photo brings all of its own. */
export function pairsOf(restoration: Sided, target: Sided): ThirdPair[] {
  const one = inOnePhoto(restoration, target);
  return THIRDS.flatMap((zone) => {
    const [to, from] = [restoration, target].map(({ reading }): Colour | undefined => {
      const read = reading?.zones[zone];
      return read && { lab: read.lab, doubt: one ? read.doubt_in_photo : read.doubt };
    });
    return from && to ? [{ zone, pair: { from, to } }] : [];
  });
}

export function seriesOf({ of, region, reading }: Sided, role: Side, name: string): Series[] {
  if (!reading) return [];
  return [{ id: `${role} ${of.photo.handle} ${region.id}`, name, role, gradient: reading.gradient, zones: reading.zones, place: (at) => onSheet(at, bordersOf(region)) }];
}

export const nearestOf = ({ of, region, reading }: Sided, zone: Zone): Nearest | null => (reading && of.report && nearestOn(ladderOfZone(of.report, region.id, zone))) || null;

/** Restoration → target as if typed. */
export function typedFrom(pairs: readonly ThirdPair[]): TypedPlan {
  const zones = pairs.map(({ zone, pair }) => [zone, { from: typedLab(pair.to.lab), to: typedLab(pair.from.lab), doubt: Math.hypot(pair.from.doubt ?? 0, pair.to.doubt ?? 0) }]);
  return { ...EMPTY_TYPED, ...Object.fromEntries(zones) } as TypedPlan;
}

/** The rungs of trust that the two photos stand on, where they are not the same. */
export function rungsApart(a: Sided, b: Sided): readonly [Trust, Trust] | null {
  const [ours, theirs] = [a, b].map((side) => side.of.report?.light?.trust);
  return ours !== undefined && theirs !== undefined && ours !== theirs ? [ours, theirs] : null;
}
