/** Which regions stand on the sheet and what is said about each third. Pure: report in, rows out. */
import type { Role, Series } from '../charts/series';
import { bordersOf, onSheet } from './borders';
import { THIRDS, type Ladder, type LightCheck, type Region, type Report, type Rung, type Scene, type StainAdvice, type Zone, type ZoneAdvice } from '../engine/types';

export interface Picks {
  target: string | undefined;
  restoration: string | null;
  tab: string | null;
}

export interface SheetRow {
  zone: Zone;
  /** Restoration against target. */
  advice: ZoneAdvice | undefined;
  /** Nearest tab to the subject, when there is no restoration to judge. */
  nearest: Nearest | undefined;
  /** What has to be said about that tab: that another one cannot be told from it. */
  note: string | undefined;
  /** Unevenness of restoration and target, ΔE00. */
  surface: { blotch: number; than: number | undefined } | undefined;
}

export interface SheetModel {
  pictures: { region: Region; role: Role }[];
  series: Series[];
  rows: SheetRow[];
  advice: StainAdvice | undefined;
  /** The region whose tabs are laddered: the target, or what there is. */
  subject: Region | undefined;
}

/** A difference no larger than its doubt cannot be told; one whose doubt nobody knows counts. */
export const isTold = ({ delta_e_00, doubt }: { delta_e_00: number; doubt?: number }): boolean => doubt === undefined || delta_e_00 > doubt;

/** The gravest finding that forbids numbers: of the photo, or of one region. */
export const retakeOf = (checks: readonly LightCheck[], region?: string): LightCheck | undefined =>
  checks.find((c) => c.severity === 'retake' && c.region === region);

export function sheetModel(report: Report, scene: Scene, picks: Picks, nameOf: (id: string) => string): SheetModel {
  const find = (id: string | null | undefined) => scene.regions.find((r) => r.id === id);
  const ofKind = (kind: Region['kind']) => scene.regions.filter((r) => r.kind === kind);
  const restoration = find(picks.restoration) ?? ofKind('restoration')[0];
  const advice = report.advice.find((a) => a.restoration === restoration?.id);
  const target = find(picks.target) ?? find(advice?.target) ?? ofKind('tooth')[0];
  const subject = target ?? restoration;
  const tab = find(picks.tab) ?? nearestTabInPhoto(report, scene, subject) ?? ofKind('tab')[0];
  const pictures = [
    ...(target ? [{ region: target, role: 'target' as const }] : []),
    ...(restoration && restoration !== target ? [{ region: restoration, role: 'restoration' as const }] : []),
    ...(tab && tab !== target ? [{ region: tab, role: 'tab' as const }] : []),
  ];
  const series = pictures.flatMap(({ region, role }) => {
    const reading = report.readings.find((r) => r.region === region.id);
    const trusted = reading && !retakeOf(report.checks, region.id);
    return trusted ? [{ id: region.id, name: nameOf(region.id), role, gradient: reading.gradient, zones: reading.zones, place: (at: number) => onSheet(at, bordersOf(region)) }] : [];
  });
  const trusted = (id: string | undefined) => id !== undefined && !retakeOf(report.checks, id);
  const sound = trusted(advice?.restoration) && trusted(advice?.target) ? advice : undefined;
  const rows = THIRDS.map((zone) => {
    const ladder = trusted(subject?.id) ? ladderOfZone(report, subject?.id, zone) : undefined;
    const blotchOf = (id: string | undefined) => report.readings.find((r) => r.region === id)?.zones[zone]?.blotch;
    const blotch = blotchOf(sound?.restoration);
    const surface = blotch === undefined ? undefined : { blotch, than: blotchOf(sound?.target) };
    return { zone, advice: sound?.zones.find((z) => z.zone === zone), nearest: nearestOn(ladder), note: ladder?.note, surface };
  });
  return { pictures, series, rows, advice: sound, subject };
}

export interface Nearest {
  readonly rung: Rung;
  /** Names of tabs that cannot be told from it. */
  readonly alike: string[];
}

export const nearestOn = (ladder: Ladder | undefined): Nearest | undefined =>
  ladder?.tabs[0] && { rung: ladder.tabs[0], alike: ladder.tabs.slice(1).filter((r) => r.alike).map((r) => r.name) };

export const ladderOfZone = (report: Report, region: string | undefined, zone: Zone): Ladder | undefined =>
  report.ladders.find((l) => l.region === region && l.zone === zone);

function nearestTabInPhoto(report: Report, scene: Scene, subject: Region | undefined): Region | undefined {
  const ladder = ladderOfZone(report, subject?.id, 'whole') ?? ladderOfZone(report, subject?.id, 'middle');
  const rung = ladder?.tabs.find((t) => t.basis === 'in_photo');
  return scene.regions.find((r) => r.kind === 'tab' && (r.name || r.id) === rung?.name);
}
