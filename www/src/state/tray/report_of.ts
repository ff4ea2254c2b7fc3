/** The newest reading of an open photo, looked at or not, as it stands. */
import type { OpenPhoto } from '../../engine/desk';
import type { Report } from '../../engine/types';
import { doc } from '../desk';
import { readAlike } from '../doc';
import { searching } from '../find';
import { reading } from '../reading';
import { openPhotos } from './laid';
import { trayReports } from './reports';

/** As far as it is known, even while something is still looked for. */
export function knownReport(photo: OpenPhoto): Report | undefined {
  if (photo !== doc.value.photo) return trayReports.value.get(photo.handle)?.report;
  const now = reading.value;
  return now && readAlike(now.doc, doc.value) ? now.report : undefined;
}

/** What is only missing because it is still looked for is not missed. */
export const reportOf = (photo: OpenPhoto): Report | undefined => (photo === doc.value.photo && searching.value ? undefined : knownReport(photo));

/** How many of how many are read. */
export function progress(): { read: number; of: number } {
  const all = openPhotos(doc.value);
  return { read: all.filter(({ photo }) => reportOf(photo)).length, of: all.length };
}
