/** What there is to export: the photo that is looked at, and all that are open. */
import type { PhotoNumbers } from '../../charts/csv';
import type { Report } from '../../engine/types';
import { words } from '../../words';
import { doc, guide } from '../desk';
import type { Laid } from '../doc';
import { reading } from '../reading';
import { photoRetake } from '../sheet';
import { retakeOf } from '../sheet_model';
import { openPhotos } from '../tray/laid';
import { knownReport } from '../tray/report_of';
import { trayProblems } from '../tray/reports';

/** Something of the photo that is looked at can be trusted. */
export const hasNumbers = (): boolean => {
  const report = reading.value?.report;
  return report !== undefined && !photoRetake.value && report.readings.some((r) => !retakeOf(report.checks, r.region));
};

export const hasAllNumbers = (): boolean => openPhotos(doc.value).some(({ photo }) => knownReport(photo) !== undefined);

function numbersOf(laid: Laid): PhotoNumbers {
  const { photo, scene } = laid;
  const report = knownReport(photo);
  const untrusted = (region?: string) => {
    const check = report && retakeOf(report.checks, region);
    return check && words.names.said(scene, check.text);
  };
  return { photo: words.photo.shown(photo.name), scene, report: report ?? trayProblems.value.get(photo.handle) ?? words.tray.notRead, untrusted, guide: guide.value?.name };
}

/** Every open photo. */
export const allNumbers = (): PhotoNumbers[] => openPhotos(doc.value).map(numbersOf);

/** The photo that is looked at, once it is read. */
export const ownNumbers = (): (PhotoNumbers & { report: Report }) | null => {
  const laid = openPhotos(doc.value).find((l) => l.photo === doc.value.photo);
  const own = laid && numbersOf(laid);
  return own && typeof own.report !== 'string' ? (own as PhotoNumbers & { report: Report }) : null;
};
