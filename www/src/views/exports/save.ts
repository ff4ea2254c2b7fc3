/** Numbers and pictures handed to the user as files. */
import { csvOf } from '../../charts/csv';
import { caseDesk } from '../../engine/case_instance';
import { photoBase, saveBlob, saveText } from '../pick_file';
import { words } from '../../words';
import { photo } from '../../state/desk';
import { report } from '../../state/problems';
import { problem, say, whileBusy } from '../../state/status';
import { coloursOf, reportJson, reportsJson } from '../../state/exports/forms';
import { allNumbers, hasNumbers, ownNumbers } from '../../state/exports/numbers';
import { pictureOf } from './picture';

const base = (): string => photoBase(photo.value);

function save(name: string, text: string, type: string): void {
  saveText(name, text, type);
  say(words.status.saved(name));
}

/** The photo that is looked at; just after a change it is still being read, which is said. */
function own(): ReturnType<typeof ownNumbers> {
  const found = ownNumbers();
  if (!found) say(words.tray.notRead);
  return found;
}

function csv(): string | null {
  const found = hasNumbers() ? own() : null;
  return found && csvOf([found]);
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
  const found = own();
  if (found) save(`${base()}.report.json`, reportJson(found.report), 'application/json');
}

export const saveAllJson = (): void => save(`${words.tray.csvName}.json`, reportsJson(allNumbers()), 'application/json');

export async function saveCgats(): Promise<void> {
  const found = own();
  if (!found) return;
  const name = `${base()}.cgats.txt`;
  try {
    const text = await whileBusy(words.exports.making(name), (signal, onPhase) => caseDesk.cgats(coloursOf(found, new Date()), { signal, onPhase }));
    if (text === null) return say(words.status.cancelled);
    save(name, text, 'text/plain');
  } catch (error) {
    report(words.exports.failed(name), error);
  }
}

/** Everything that is on the picture comes from the page: nothing of the file's own metadata can be in it. */
export async function savePicture(): Promise<void> {
  const open = photo.value;
  const found = open && own();
  if (!found) return;
  const name = `${base()}.outlines.png`;
  try {
    const picture = await whileBusy(words.exports.making(name), () => pictureOf(open, found, new Date()));
    if (picture === null) return say(words.status.cancelled);
    saveBlob(name, picture);
    say(words.status.saved(name));
  } catch (error) {
    report(words.exports.failed(name), error);
  }
}
