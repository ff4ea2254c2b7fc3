/** Whether a photo tells its named tabs apart as the guide does. Pure: pairs out, differences in, rows out. */
import type { Colour, ColourPair, Difference, Guide, Report, Scene } from '../../engine/types';
import { ACCEPTABILITY_DELTA_E_00 as CORRECTED, PERCEPTIBILITY_DELTA_E_00 as SEEN } from '../../charts/ladder_layout';
import { retakeOf } from '../sheet_model';

/** 120 pairs; more tabs than the usual guide has are not laid out for one photo. */
export const MAX_TABS = 16;

interface KnownTab {
  readonly name: string;
  /** The middle third as this photo has it. */
  readonly read: Colour;
  readonly middle: Colour | undefined;
  readonly whole: Colour;
}

/** Tabs with a name that the guide knows and with a middle third that may be trusted, in the guide's order. */
function knownTabs(scene: Scene, report: Report, guide: Guide): KnownTab[] {
  if (retakeOf(report.checks)) return [];
  return guide.tabs
    .flatMap(({ name, lab, zones }): KnownTab[] => {
      const region = scene.regions.find((r) => r.kind === 'tab' && r.name === name && !retakeOf(report.checks, r.id));
      const read = report.readings.find((r) => r.region === region?.id)?.zones.middle;
      if (!read) return [];
      return [{ name, read: { lab: read.lab, doubt: read.doubt_in_photo }, middle: zones?.middle && { lab: zones.middle }, whole: { lab } }];
    })
    .slice(0, MAX_TABS);
}

export interface TabPair {
  readonly names: readonly [string, string];
  readonly read: ColourPair;
  readonly guide: ColourPair;
  /** The guide knows no middle third of one of them. */
  readonly wholeTabs: boolean;
}

export function tabPairs(scene: Scene, report: Report, guide: Guide): TabPair[] {
  const tabs = knownTabs(scene, report, guide);
  return tabs.flatMap((a, i) =>
    tabs.slice(i + 1).map((b): TabPair => {
      const thirds = a.middle && b.middle ? { from: a.middle, to: b.middle } : null;
      return { names: [a.name, b.name], read: { from: a.read, to: b.read }, guide: thirds ?? { from: a.whole, to: b.whole }, wholeTabs: !thirds };
    }),
  );
}

/** For one call of the engine: as read, then by the guide. */
export const asked = (pairs: readonly TabPair[]): ColourPair[] => [...pairs.map((p) => p.read), ...pairs.map((p) => p.guide)];

/** How the photo tells a pair apart: as the guide does, nearly so, otherwise, the other way round, or not at all. */
export type Telling = 'as-guide' | 'nearly' | 'otherwise' | 'turned' | 'not-told';

export interface TabRow {
  readonly names: readonly [string, string];
  readonly read: Difference;
  readonly guide: Difference;
  /** Between the two differences, in value, chroma and hue: equal lengths into different directions disagree. */
  readonly disagreement: number;
  readonly telling: Telling;
}

const parts = (d: Difference): number[] => [d.delta_l, d.delta_c, d.delta_h];
const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, v, i) => sum + v * b[i]!, 0);

function tellingOf(read: Difference, guide: Difference, disagreement: number): Telling {
  const doubt = read.doubt ?? 0;
  if (disagreement <= Math.max(SEEN, doubt)) return 'as-guide';
  if (read.delta_e_00 <= doubt && guide.delta_e_00 > SEEN) return 'not-told';
  if (guide.delta_e_00 > SEEN && read.delta_e_00 > doubt && dot(parts(read), parts(guide)) < 0) return 'turned';
  return disagreement <= Math.max(CORRECTED, doubt) ? 'nearly' : 'otherwise';
}

/** The worst first. `found` answers `asked`. */
export function tabRows(pairs: readonly TabPair[], found: readonly Difference[]): TabRow[] {
  const rows = pairs.flatMap(({ names }, i): TabRow[] => {
    const [read, guide] = [found[i], found[pairs.length + i]];
    if (!read || !guide) return [];
    const away = parts(read).map((v, axis) => v - parts(guide)[axis]!);
    const disagreement = Math.sqrt(dot(away, away));
    return [{ names, read, guide, disagreement, telling: tellingOf(read, guide, disagreement) }];
  });
  return rows.sort((a, b) => b.disagreement - a.disagreement);
}

/** Pairs that the photo tells apart as the guide does, or nearly so. */
export const toldAsGuide = (rows: readonly TabRow[]): number => rows.filter((r) => r.telling === 'as-guide' || r.telling === 'nearly').length;

/** Compared tabs that the correction of this photo itself stands on: they agree in part because they were made to. */
export function anchored(report: Report, rows: readonly TabRow[]): string[] {
  const names = new Set(rows.flatMap((r) => r.names));
  return (report.light?.tabs ?? []).filter((t) => t.used && names.has(t.name)).map((t) => t.name);
}
