/** What the open photo says about restoration and target, third by third; or why it says nothing. */
import { computed } from '@preact/signals';
import { THIRDS, type Report } from '../../engine/types';
import { words } from '../../words';
import { doc, photo, scene } from '../desk';
import { reading, readingProblem } from '../reading';
import { pendingRestoration } from '../roles';
import { cardMissing, photoRetake, sheet } from '../sheet';
import { retakeOf, type SheetModel } from '../sheet_model';
import { calledIn, type Called, type Names } from './called';
import type { WorkZone } from './work';

export interface Comparison {
  /** Regions by id, and what they are called. */
  readonly restoration: string;
  readonly target: string;
  readonly names: Names<Called>;
  readonly zones: readonly WorkZone[];
}

/** Why the open photo gives no comparison. */
export type NoComparison =
  | { why: 'no-photo' | 'no-card' | 'ask' | 'no-restoration' | 'no-target' | 'waiting' | 'no-zone' }
  | { why: 'unread' | 'retake' | 'region'; text: string };

/** Each third that was read in both, with the unevenness of the restoration. */
export function comparedZones(report: Report, { advice }: SheetModel): WorkZone[] {
  const zonesOf = (id: string) => report.readings.find((r) => r.region === id)?.zones;
  if (!advice) return [];
  return THIRDS.flatMap((zone) => {
    const [from, to] = [zonesOf(advice.restoration)?.[zone], zonesOf(advice.target)?.[zone]];
    const found = advice.zones.find((z) => z.zone === zone);
    return from && to && found ? [{ zone, from: from.lab, to: to.lab, doubt: found.doubt, ...(from.blotch !== undefined && { blotch: from.blotch }) }] : [];
  });
}

export const comparison = computed<Comparison | NoComparison>(() => {
  if (!photo.value) return { why: 'no-photo' };
  const failed = readingProblem.value;
  if (failed) return { why: 'unread', text: `${failed.title} ${failed.text}` };
  const [report, model] = [reading.value?.report, sheet.value];
  if (!report || !model) return { why: 'waiting' };
  if (photoRetake.value) return { why: 'retake', text: words.names.said(scene.value, photoRetake.value.text) };
  if (cardMissing.value) return { why: 'no-card' };
  const idOf = (role: string) => model.pictures.find((p) => p.role === role)?.region.id;
  const [restoration, target] = [idOf('restoration'), idOf('target')];
  if (!restoration) return { why: pendingRestoration(doc.value) ? 'ask' : 'no-restoration' };
  if (!target) return { why: 'no-target' };
  const distrust = retakeOf(report.checks, restoration) ?? retakeOf(report.checks, target);
  if (distrust) return { why: 'region', text: words.names.said(scene.value, distrust.text) };
  const zones = comparedZones(report, model);
  if (zones.length === 0) return { why: 'no-zone' };
  return { restoration, target, names: { restoration: calledIn(scene.value, restoration), target: calledIn(scene.value, target) }, zones };
});

export const compared = computed(() => ('why' in comparison.value ? null : comparison.value));
