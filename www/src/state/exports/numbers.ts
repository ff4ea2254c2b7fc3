/** What there is to export: the photo that is looked at, and all that are open. */
import { computed } from '@preact/signals';
import type { PhotoNumbers } from '../../charts/csv';
import type { Report } from '../../engine/types';
import { words } from '../../words';
import { doc, guide } from '../desk';
import { readAlike, type Laid } from '../doc';
import { reading } from '../reading';
import { photoRetake } from '../sheet';
import { retakeOf } from '../sheet_model';
import { openPhotos } from '../tray/laid';
import { trayProblems, trayReports } from '../tray/reports';

/** The report of the photo that is looked at, as it stands now. */
const looked = computed<Report | undefined>(() => {
  const now = reading.value;
  return now && readAlike(now.doc, doc.value) ? now.report : undefined;
});

/** Something of the photo that is looked at can be trusted. */
export const hasNumbers = (): boolean => {
  const report = reading.value?.report;
  return report !== undefined && !photoRetake.value && report.readings.some((r) => !retakeOf(report.checks, r.region));
};

const reportOf = ({ photo }: Laid): Report | undefined => (photo === doc.value.photo ? looked.value : trayReports.value.get(photo.handle)?.report);

export const hasAllNumbers = (): boolean => openPhotos(doc.value).some((laid) => reportOf(laid) !== undefined);

function numbersOf(laid: Laid): PhotoNumbers {
  const { photo, scene } = laid;
  const report = reportOf(laid);
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
