/** Numbers and pictures handed to the user as files. */
import { csvOf } from '../../charts/csv';
import { caseDesk } from '../../engine/case_instance';
import { saveBlob, saveText } from '../../views/pick_file';
import { words } from '../../words';
import { photo } from '../desk';
import { report } from '../problems';
import { problem, say, whileBusy } from '../status';
import { coloursOf, reportJson, reportsJson } from './forms';
import { allNumbers, hasNumbers, ownNumbers } from './numbers';
import { pictureOf } from '../../views/exports/picture';

const base = (): string => (photo.value?.name ?? 'tabside').replace(/\.[^.]+$/, '');

function save(name: string, text: string, type: string): void {
  saveText(name, text, type);
  say(words.status.saved(name));
}

function csv(): string | null {
  const own = hasNumbers() ? ownNumbers() : null;
  return own && csvOf([own]);
}

export function saveCsv(): void {
  const text = csv();
  if (text) save(`${base()}.csv`, text, 'text/csv');
}

export const saveAllCsv = (): void => save(`${words.tray.csvName}.csv`, csvOf(allNumbers()), 'text/csv');

export async function copyCsv(): Promise<void> {
  const text = csv();
  if (!text) return;
  try {
    await navigator.clipboard.writeText(text);
    say(words.status.copied);
  } catch {
    problem.value = { title: words.errors.copyFailed, text: '', advice: words.errors.copyAdvice };
  }
}

/** The report is kept whole: its light checks say what may not be trusted. */
export function saveJson(): void {
  const own = ownNumbers();
  if (own) save(`${base()}.report.json`, reportJson(own.report), 'application/json');
}

export const saveAllJson = (): void => save(`${words.tray.csvName}.json`, reportsJson(allNumbers()), 'application/json');

export async function saveCgats(): Promise<void> {
  const own = ownNumbers();
  if (!own) return;
  const name = `${base()}.cgats.txt`;
  try {
    const text = await whileBusy(words.exports.making(name), (signal, onPhase) => caseDesk.cgats(coloursOf(own, new Date()), { signal, onPhase }));
    if (text === null) return say(words.status.cancelled);
    save(name, text, 'text/plain');
  } catch (error) {
    report(words.exports.failed(name), error);
  }
}

/** Everything that is on the picture comes from the page: nothing of the file's own metadata can be in it. */
export async function savePicture(): Promise<void> {
  const own = ownNumbers();
  const open = photo.value;
  if (!own || !open) return;
  const name = `${base()}.outlines.png`;
  try {
    const picture = await whileBusy(words.exports.making(name), () => pictureOf(open, own, new Date()));
    if (picture === null) return say(words.status.cancelled);
    saveBlob(name, picture);
    say(words.status.saved(name));
  } catch (error) {
    report(words.exports.failed(name), error);
  }
}
