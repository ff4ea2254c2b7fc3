/** What the menu does. */
import { csvOf, csvOfPhotos, type PhotoNumbers } from '../charts/csv';
import { change, doc, photo, scene } from '../state/desk';
import { readAlike } from '../state/doc';
import { openFiles, openGuide, openPhoto, openPolarised, openScene } from '../state/open';
import { reading } from '../state/reading';
import { withPairTransform } from '../state/scene_edit';
import { guideToJson, sceneToJson } from '../state/scene_file';
import { photoRetake } from '../state/sheet';
import { retakeOf } from '../state/sheet_model';
import { bookToJson } from '../state/stains/book_file';
import { openSwatches, ownBook } from '../state/stains/swatches';
import { problem, say } from '../state/status';
import { checkedGuide } from '../state/tab_book';
import { addPhotos } from '../state/tray/add';
import { openPhotos } from '../state/tray/laid';
import { trayProblems, trayReports } from '../state/tray/reports';
import { words } from '../words';
import { JSON_TYPES, PHOTO_TYPES, pickFile, pickFiles, saveText } from './pick_file';

/** On a touch screen one tap takes one photo; choosing several there needs one more. */
const several = (): boolean => matchMedia('(pointer: fine)').matches;

export const pickPhoto = () => pickFiles({ accept: PHOTO_TYPES, multiple: several() }, (files) => void openFiles(files));
export const pickPhotos = () => pickFiles({ accept: PHOTO_TYPES, multiple: true }, (files) => void addPhotos(files));
export const takePhoto = () => pickFile({ accept: 'image/*', camera: true }, (file) => void openPhoto(file, file.name));
export const pickPolarised = () => pickFile({ accept: PHOTO_TYPES }, (file) => void openPolarised(file, file.name));
export const pickScene = () => pickFile({ accept: JSON_TYPES }, (file) => void openScene(file, file.name));
export const pickGuide = () => pickFile({ accept: JSON_TYPES }, (file) => void openGuide(file, file.name));
export const removePolarised = () => change(words.edits.removePolarised, { polarised: null, scene: withPairTransform(scene.value, null) });

export const pickSwatches = () => pickFile({ accept: JSON_TYPES }, (file) => void openSwatches(file, file.name));

const fileNameOf = (text: string): string => text.replace(/[\\/:*?"<>|]/g, '-');

export function saveSwatches(): void {
  const name = `${fileNameOf(ownBook.value.name || words.swatches.fileName)}.swatches.json`;
  saveText(name, bookToJson(ownBook.value), 'application/json');
  say(words.status.saved(name));
}

const baseName = () => (photo.value?.name ?? 'tabside').replace(/\.[^.]+$/, '');

export function saveScene(): void {
  const name = `${baseName()}.scene.json`;
  saveText(name, sceneToJson(scene.value), 'application/json');
  say(words.status.saved(name));
}

export function saveOwnTabs(): void {
  const own = checkedGuide();
  if (!own) return;
  const name = `${fileNameOf(own.name)}.guide.json`;
  saveText(name, guideToJson(own), 'application/json');
  say(words.status.saved(name));
}

function csv(): string | null {
  const current = reading.value;
  if (!current || photoRetake.value) return null;
  return csvOf(current.report, doc.value.scene, (region) => retakeOf(current.report.checks, region) !== undefined);
}

export const hasNumbers = (): boolean => (csv()?.split('\n').length ?? 0) > 2;

export function saveCsv(): void {
  const text = csv();
  if (!text) return;
  const name = `${baseName()}.csv`;
  saveText(name, text, 'text/csv');
  say(words.status.saved(name));
}

/** Every open photo for the table. */
function allNumbers(): PhotoNumbers[] {
  const now = reading.value;
  const looked = now && readAlike(now.doc, doc.value) ? now.report : undefined;
  return openPhotos(doc.value).map(({ photo, scene }) => {
    const report = photo === doc.value.photo ? looked : trayReports.value.get(photo.handle)?.report;
    const untrusted = (region?: string) => {
      const check = report && retakeOf(report.checks, region);
      return check && words.names.said(scene, check.text);
    };
    return { photo: words.photo.shown(photo.name), scene, report: report ?? trayProblems.value.get(photo.handle) ?? words.tray.notRead, untrusted };
  });
}

export const hasAllNumbers = (): boolean => allNumbers().some((p) => typeof p.report !== 'string');

export function saveAllCsv(): void {
  const name = `${words.tray.csvName}.csv`;
  saveText(name, csvOfPhotos(allNumbers()), 'text/csv');
  say(words.status.saved(name));
}

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
