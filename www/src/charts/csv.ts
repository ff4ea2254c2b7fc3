/** The numbers of a report as comma-separated text (RFC 4180, decimal point, one row per zone). */
import { ZONES, type Report, type Scene } from '../engine/types';

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

/** Regions that may not be trusted (see `hidden`) get no row. */
export function csvOf(report: Report, scene: Scene, hidden: (region: string) => boolean): string {
  const rows = report.readings
    .filter((reading) => !hidden(reading.region))
    .flatMap((reading) => {
      const region = scene.regions.find((r) => r.id === reading.region);
      return ZONES.flatMap((zone) => {
        const z = reading.zones[zone];
        if (!z) return [];
        const nearest = report.ladders.find((l) => l.region === reading.region && l.zone === zone)?.tabs[0];
        return [[
          reading.region, region?.kind, region?.name, zone, ...z.lab.map((v) => rounded(v, 2)), rounded(z.chroma, 2), rounded(z.hue_deg, 1),
          rounded(z.doubt, 2), rounded(z.doubt_in_photo, 2), z.pixels, rounded(z.blotch, 2), rounded(z.glare, 4), rounded(z.glare_value, 2),
          z.glare_measured ? 'measured' : 'estimated', rounded(z.value_polarised, 2),
          nearest?.name, rounded(nearest?.delta_e_00, 2), nearest?.basis,
        ]];
      });
    });
  return [HEADER, ...rows].map((row) => row.map(cell).join(',')).join('\r\n') + '\r\n';
}
