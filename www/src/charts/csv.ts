/**
 * The numbers of photos as comma-separated text (RFC 4180, decimal point): one row per outline and zone.
 * Colours are L*a*b* under D65, 2° observer. What may not be trusted gives its reason in place of numbers.
 */
import { ZONES, type LightCheck, type Report, type Scene } from '../engine/types';
import { plain } from '../views/plain';
import { words } from '../words';

const ABOUT = ['photo', 'outline', 'kind', 'name', 'zone'];
const NUMBERS = [
  'L*_D65_2deg', 'a*_D65_2deg', 'b*_D65_2deg', 'C*', 'h_deg', 'doubt_dE00', 'doubt_in_photo_dE00', 'pixels', 'unevenness_dE00', 'glare_share', 'glare_raised_L*', 'glare_basis', 'L*_cross_polarised',
  'nearest_tab', 'nearest_dE00', 'nearest_basis',
];
const FURTHER = ['no_numbers_because', 'untrusted', 'light_checks', 'guide', 'program'];

type Cell = string | number | undefined;
type Row = readonly Cell[];

/**
 * A leading sign or formula mark must not be run by a spreadsheet; nor one that begins a cell only for
 * a spreadsheet that parts rows elsewhere, as it does where the comma is the decimal sign.
 */
const guarded = (text: string): string => text.replace(/^\s*[\t\r\n]\s*/, '').replace(/(^|[;|\t\r\n])((?:[^\S\t\r\n]|")*)(?=[=+\-@＝＋－＠])/gu, "$1'$2");

const cell = (value: Cell): string => {
  const text = value === undefined ? '' : typeof value === 'string' ? guarded(plain(value)) : String(value);
  return /[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

const rounded = (value: number | undefined, digits: number): number | undefined =>
  value === undefined ? undefined : Number(value.toFixed(digits));

/** As on the screen; there too an outline without a name is called something. */
const nameOf = (scene: Scene, region: string): string => scene.regions.find((r) => r.id === region)?.name || words.names.region(scene, region);

const text = (rows: readonly Row[]): string => rows.map((row) => row.map(cell).join(',')).join('\r\n') + '\r\n';

const blanks = (n: number): undefined[] => Array<undefined>(n).fill(undefined);

/** The stable words of the checks that concern a region: its own and those of the whole photo. */
const codes = (checks: readonly LightCheck[], region?: string): string =>
  [...new Set(checks.filter((c) => c.region == null || c.region === region).map((c) => c.code))].join(' ');

/** What is known of a photo. */
export interface PhotoNumbers {
  readonly photo: string;
  readonly scene: Scene;
  /** Or why there is none. */
  readonly report: Report | string;
  /** Why the whole photo, or one of its regions, may not be trusted. */
  readonly untrusted: (region?: string) => string | undefined;
  /** The name of the shade guide that it was read with. */
  readonly guide?: string | undefined;
}

function numbersOf(report: Report, scene: Scene, regionId: string): Row[] {
  const reading = report.readings.find((r) => r.region === regionId);
  return ZONES.flatMap((zone) => {
    const z = reading?.zones[zone];
    if (!z) return [];
    const nearest = report.ladders.find((l) => l.region === regionId && l.zone === zone)?.tabs[0];
    return [[
      zone, ...z.lab.map((v) => rounded(v, 2)), rounded(z.chroma, 2), rounded(z.hue_deg, 1),
      rounded(z.doubt, 2), rounded(z.doubt_in_photo, 2), z.pixels, rounded(z.blotch, 2), rounded(z.glare, 4), rounded(z.glare_value, 2),
      z.glare_measured ? 'measured' : 'estimated', rounded(z.value_polarised, 2),
      nearest && words.names.tab(scene, nearest.name), rounded(nearest?.delta_e_00, 2), nearest?.basis,
    ]];
  });
}

function rowsOf({ photo, scene, report, untrusted, guide }: PhotoNumbers): Row[] {
  if (typeof report === 'string') return [[photo, ...blanks(ABOUT.length - 1 + NUMBERS.length), report, 'yes', ...blanks(2), undefined]];
  const further = (why: string | undefined, region?: string): Row => [why, why === undefined ? 'no' : 'yes', codes(report.checks, region), guide, `tabside ${report.version}`];
  const why = untrusted();
  if (why !== undefined) return [[photo, ...blanks(ABOUT.length - 1 + NUMBERS.length), ...further(why)]];
  return report.readings.flatMap(({ region }) => {
    const whyNot = untrusted(region);
    const about = [photo, region, scene.regions.find((r) => r.id === region)?.kind, nameOf(scene, region)];
    if (whyNot !== undefined) return [[...about, ...blanks(1 + NUMBERS.length), ...further(whyNot, region)]];
    return numbersOf(report, scene, region).map((row) => [...about, ...row, ...further(undefined, region)]);
  });
}

/** One table for one photo or many. */
export const csvOf = (photos: readonly PhotoNumbers[]): string => text([[...ABOUT, ...NUMBERS, ...FURTHER], ...photos.flatMap(rowsOf)]);
