/** The case file that was opened, and whether the numbers in it came out again. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { caseDesk } from '../../engine/case_instance';
import type { Case, CaseNote, Outcome, PhotoVerification } from '../../engine/case_types';
import type { OpenPhoto } from '../../engine/desk';
import type { Report } from '../../engine/types';
import { doc } from '../desk';
import { openPhotos } from '../tray/laid';
import { reportOf } from '../tray/report_of';
import { trayProblems } from '../tray/reports';
import { readingProblem } from '../reading';
import type { FromCase } from './from_case';

export interface OpenedFile {
  readonly name: string;
  readonly case: Case;
  readonly of: ReadonlyMap<string, OpenPhoto>;
  readonly notes: readonly CaseNote[];
  readonly unreadable: FromCase['unreadable'];
  readonly leftOut: FromCase['leftOut'];
  /** A newer program wrote it. */
  readonly readOnly: boolean;
}

export const openedFile = signal<OpenedFile | null>(null);
/** What was said of it was read. */
export const openedRead = signal(false);
/** Of each photo with a scene, once its numbers were derived again. */
export const verified = signal<ReadonlyMap<string, PhotoVerification>>(new Map());

const ORDER: readonly Outcome[] = ['same', 'rounded', 'not-compared', 'different'];

const toVerify = computed(() => openedFile.value?.case.photos.filter((p) => p.role === 'plain') ?? []);

export const verification = computed(() => {
  const photos = toVerify.value.flatMap((p) => verified.value.get(p.id) ?? []);
  const worst = photos.map((p) => p.outcome).sort((a, b) => ORDER.indexOf(b) - ORDER.indexOf(a))[0];
  return { photos, of: toVerify.value.length, outcome: photos.length === toVerify.value.length ? worst : undefined };
});

let watching = false;
/** Photos of it that are compared, or being compared. */
let begun = new Set<string>();

export function noteOpened(file: OpenedFile): void {
  if (!watching) startVerifying();
  watching = true;
  verified.value = new Map();
  begun = new Set();
  openedRead.value = false;
  openedFile.value = file;
}

export const forgetOpened = (): void => void (openedFile.value = null);

async function verify(file: OpenedFile, id: string, report: Report | undefined): Promise<void> {
  const partner = file.case.photos.find((p) => p.id === id)?.partner;
  const only: Case = { ...file.case, photos: file.case.photos.filter((p) => p.id === id || p.id === partner) };
  const found = await caseDesk.compare(only, id, report);
  if (openedFile.value === file) verified.value = new Map([...verified.value, [id, found]]);
}

/** Each photo is compared once, with what was first read of it. */
function startVerifying(): () => void {
  return effect(() => {
    const file = openedFile.value;
    if (!file) return;
    const open = openPhotos(doc.value);
    for (const { id, reading } of toVerify.value) {
      const photo = file.of.get(id);
      const here = photo && open.some((l) => l.photo === photo) && !photo.kept;
      const report = here ? reportOf(photo) : undefined;
      const failed = here && (trayProblems.value.has(photo.handle) || (photo === doc.value.photo && readingProblem.value !== null));
      if (begun.has(id) || (here && reading && !report && !failed)) continue;
      begun.add(id);
      untracked(() => void verify(file, id, report).catch(() => {}));
    }
  });
}
