/** What the menu does. */
import { change, photo, scene } from '../state/desk';
import { layPhotos, openCase, openFiles, openGuide, openPhoto, openPolarised, openScene } from '../state/open';
import { parts } from '../state/parts';
import { withPairTransform } from '../state/scene_edit';
import { guideToJson, sceneToJson } from '../state/scene_file';
import { bookToJson } from '../state/stains/book_file';
import { openSwatches, ownBook } from '../state/stains/swatches';
import { say } from '../state/status';
import { checkedGuide } from '../state/tab_book';
import { words } from '../words';
import { fileNameOf, CASE_TYPES, GUIDE_TYPES, JSON_TYPES, PHOTO_TYPES, pickFile, pickFiles, saveText, photoBase } from './pick_file';

/** On a touch screen one tap takes one photo; choosing several there needs one more. */
const several = (): boolean => matchMedia('(pointer: fine)').matches;

export const pickPhoto = () => pickFiles({ accept: PHOTO_TYPES, multiple: several() }, (files) => void openFiles(files));
export const pickPhotos = () => pickFiles({ accept: PHOTO_TYPES, multiple: true }, (files) => void layPhotos(files));
export const pickCase = () => pickFile({ accept: CASE_TYPES }, (file) => void openCase(file, file.name));
export const takePhoto = () => pickFile({ accept: 'image/*', camera: true }, (file) => void openPhoto(file, file.name));
export const pickPolarised = () => pickFile({ accept: PHOTO_TYPES }, (file) => void openPolarised(file, file.name));
export const pickScene = () => pickFile({ accept: JSON_TYPES }, (file) => void openScene(file, file.name));
export const pickGuide = () => pickFile({ accept: GUIDE_TYPES }, (file) => void openGuide(file, file.name));
export const removePolarised = () => change(words.edits.removePolarised, { polarised: null, scene: withPairTransform(scene.value, null) });

export const pickSwatches = () => pickFile({ accept: JSON_TYPES }, (file) => void openSwatches(file, file.name));

export function saveSwatches(): void {
  const name = `${fileNameOf(ownBook.value.name || words.swatches.fileName)}.swatches.json`;
  saveText(name, bookToJson(ownBook.value), 'application/json');
  say(words.status.saved(name));
}

export function saveScene(): void {
  const name = `${photoBase(photo.value)}.scene.json`;
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

/** What is handed on as a file: it comes with the parts of the page that are fetched later. */
const saving = async () => (await parts())?.saving;
export const saveCsv = async (): Promise<void> => (await saving())?.saveCsv();
export const saveAllCsv = async (): Promise<void> => (await saving())?.saveAllCsv();
export const copyCsv = async (): Promise<void> => (await saving())?.copyCsv();
export const savePicture = async (): Promise<void> => (await saving())?.savePicture();
