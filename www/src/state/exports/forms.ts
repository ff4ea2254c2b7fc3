/** What is read in forms for other programs: JSON as the command line prints it, and what CGATS is made of. Pure. */
import type { PhotoNumbers } from '../../charts/csv';
import type { Colours } from '../../engine/case_types';
import type { Report } from '../../engine/types';
import { words } from '../../words';

const json = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`;

/** One report, in the form of `report.schema.json`. */
export const reportJson = (report: Report): string => json(report);

/** Many: each photo by its name, with its report or why there is none. */
export const reportsJson = (photos: readonly PhotoNumbers[]): string =>
  json({ photos: photos.map(({ photo, report }) => (typeof report === 'string' ? { photo, no_report_because: report } : { photo, report })) });

/** Outlines without a name are called as they are on the screen. */
export function coloursOf({ photo, report }: { photo: string; report: Report }, now: Date): Colours {
  const { version, scene, readings, checks } = report;
  const regions = scene.regions.map((r) => ({ ...r, name: r.name || words.names.region(scene, r.id) }));
  return { photo, version, created: now.toISOString().replace(/\.\d+Z$/, 'Z'), scene: { ...scene, regions }, readings, checks };
}
