/** The numbers of a report as comma-separated text (RFC 4180, decimal point, one row per zone). */
import { ZONES, type Report, type Scene } from '../engine/types';
import { words } from '../words';

const HEADER = [
  'outline', 'kind', 'name', 'zone', 'L*', 'a*', 'b*', 'C*', 'h_deg', 'doubt_dE00', 'doubt_in_photo_dE00', 'pixels', 'unevenness_dE00', 'glare_share', 'glare_raised_L*', 'glare_basis', 'L*_cross_polarised',
  'nearest_tab', 'nearest_dE00', 'nearest_basis',
];

const cell = (value: string | number | undefined): string => {
  const text = value === undefined ? '' : String(value);
  // A leading sign or formula mark must not be run by a spreadsheet.
  const safe = typeof value === 'string' && /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

const rounded = (value: number | undefined, digits: number): number | undefined =>
  value === undefined ? undefined : Number(value.toFixed(digits));

/** As on the screen; there too an outline without a name is called something. */
const nameOf = (scene: Scene, region: string): string => scene.regions.find((r) => r.id === region)?.name || words.names.region(scene, region);

type Row = readonly (string | number | undefined)[];

const text = (rows: readonly Row[]): string => rows.map((row) => row.map(cell).join(',')).join('\r\n') + '\r\n';

function rowsOf(report: Report, scene: Scene, regionId: string): Row[] {
  const reading = report.readings.find((r) => r.region === regionId);
  const region = scene.regions.find((r) => r.id === regionId);
  return ZONES.flatMap((zone) => {
    const z = reading?.zones[zone];
    if (!z) return [];
    const nearest = report.ladders.find((l) => l.region === regionId && l.zone === zone)?.tabs[0];
    return [[
      regionId, region?.kind, nameOf(scene, regionId), zone, ...z.lab.map((v) => rounded(v, 2)), rounded(z.chroma, 2), rounded(z.hue_deg, 1),
      rounded(z.doubt, 2), rounded(z.doubt_in_photo, 2), z.pixels, rounded(z.blotch, 2), rounded(z.glare, 4), rounded(z.glare_value, 2),
      z.glare_measured ? 'measured' : 'estimated', rounded(z.value_polarised, 2),
      nearest && words.names.tab(scene, nearest.name), rounded(nearest?.delta_e_00, 2), nearest?.basis,
    ]];
  });
}

/** Regions that may not be trusted (see `hidden`) get no row. */
export function csvOf(report: Report, scene: Scene, hidden: (region: string) => boolean): string {
  const shown = report.readings.filter((reading) => !hidden(reading.region));
  return text([HEADER, ...shown.flatMap((reading) => rowsOf(report, scene, reading.region))]);
}

export interface PhotoNumbers {
  readonly photo: string;
  readonly scene: Scene;
  /** Or why there is none. */
  readonly report: Report | string;
  /** Why the whole photo, or one of its regions, may not be trusted. */
  readonly untrusted: (region?: string) => string | undefined;
}

/** One table for many photos. What may not be trusted gives its reason in place of numbers. */
export function csvOfPhotos(photos: readonly PhotoNumbers[]): string {
  const rows = photos.flatMap(({ photo, scene, report, untrusted }): Row[] => {
    const blank = (why: string, ...about: Row) => [photo, ...about, ...Array<undefined>(HEADER.length - about.length), why];
    const why = typeof report === 'string' ? report : untrusted();
    if (typeof report === 'string' || why !== undefined) return [blank(why ?? '')];
    return report.readings.flatMap(({ region }) => {
      const whyNot = untrusted(region);
      const of = scene.regions.find((r) => r.id === region);
      if (whyNot !== undefined) return [blank(whyNot, region, of?.kind, nameOf(scene, region))];
      return rowsOf(report, scene, region).map((row) => [photo, ...row, undefined]);
    });
  });
  return text([['photo', ...HEADER, 'no_numbers_because'], ...rows]);
}
