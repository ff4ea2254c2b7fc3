/** Opening photos, scenes, guides and the demo. What is open stays open until the new one is there. */
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import { words } from '../words';
import { demoPhoto, demoScene } from './demo_files';
import { change, defaultGuide, doc, photo } from './desk';
import { dialog } from './dialogs';
import { dropSearch, search, takeMissing } from './find';
import { nextStep } from './flow';
import { parts } from './parts';
import { report } from './problems';
import { withPairTransform } from './scene_edit';
import { guideFromJson, sceneFromJson } from './scene_file';
import { openSwatches } from './stains/swatches';
import { openWork } from './stains/work_files';
import { problem, say, whileBusy } from './status';
import { previews } from './previews';
import type { addPhotos } from './tray/add';
import { sayJoined } from './tray/joined';
import { openPhotos, withOpened } from './tray/laid';
import { hasRoom, sayFull } from './tray/room';
import { lookAfresh, showIfOpen } from './tray/show';
import { mode, select, showMode, side, tool } from './ui';

async function decode(file: Blob, name: string): Promise<OpenPhoto | null> {
  problem.value = null;
  return whileBusy(words.busy.opening(name), async (signal, onPhase) => {
    const photo = await desk.open(file, name, { signal, onPhase, tooLarge: words.errors.fileTooLarge });
    await previews.load(photo, { signal, onPhase });
    // The program did not begin with the page; now it runs.
    if (!defaultGuide.peek()) void desk.defaultGuide().then((found) => (defaultGuide.value = found), () => {});
    return photo;
  });
}

/** Looks at it at once; what was looked at goes on the tray. */
export async function openPhoto(file: Blob, name: string): Promise<void> {
  try {
    if (await showIfOpen(file)) return;
    if (!hasRoom()) return sayFull();
    const photo = await decode(file, name);
    if (!photo) return say(words.status.cancelled);
    const before = openPhotos(doc.value).map((l) => l.photo);
    change(words.edits.openPhoto(name), withOpened(doc.value, photo));
    lookAfresh();
    sayJoined(before);
    side.value = 'photo';
    say(words.status.opened(name));
    void search(photo);
  } catch (error) {
    report(words.errors.openFailed(name), error);
  }
}

export async function openPolarised(file: Blob, name: string): Promise<void> {
  try {
    const polarised = await decode(file, name);
    // How another partner lay says nothing about this one; without one the scene may have brought it.
    const scene = doc.value.polarised ? withPairTransform(doc.value.scene, null) : doc.value.scene;
    if (polarised) change(words.edits.addPolarised, { polarised, scene });
  } catch (error) {
    report(words.errors.openFailed(name), error);
  }
}

export async function openScene(file: Blob, name: string): Promise<void> {
  try {
    const scene = sceneFromJson(await file.text());
    dropSearch();
    change(words.edits.openScene(name), { scene, target: undefined, proposal: {} });
    select(null);
    tool.value = 'look';
    takeMissing();
    problem.value = null;
    say(words.status.sceneOpened(scene.regions.length));
  } catch (error) {
    report(words.errors.sceneFailed(name), error, '', words.errors.sceneAdvice);
  }
}

/** Tables are read by what comes with the parts of the page that are fetched later. */
export async function openGuide(file: Blob, name: string): Promise<void> {
  if (isTable({ name })) return (await parts())?.openTable(file, name);
  try {
    const guide = await desk.checkGuide(guideFromJson(await file.text()));
    change(words.edits.loadGuide(guide.name), { guide });
    say(words.status.guideLoaded(guide.name, guide.tabs.length));
  } catch (error) {
    report(words.errors.guideFailed(name), error);
  }
}

/** One click: the demo photo with its scene. */
export async function openDemo(): Promise<void> {
  if (!hasRoom()) return sayFull();
  try {
    const [file, text] = await Promise.all([demoPhoto(), demoScene()]);
    if (await showIfOpen(file)) return;
    const scene = sceneFromJson(text);
    const photo = await decode(file, words.demo.name);
    if (!photo) return say(words.status.cancelled);
    dropSearch();
    change(words.edits.openDemo, withOpened(doc.value, photo, scene));
    lookAfresh();
    side.value = 'sheet';
    say(words.status.opened(words.demo.name));
  } catch (error) {
    report(words.errors.demoFailed, error);
  }
}

const isCase = (file: File): boolean => /\.tabside$/i.test(file.name);

/** What cases need comes with the parts of the page that are fetched later. */
export async function openCase(file: Blob, name: string): Promise<void> {
  if (await (await parts())?.openCaseFile(file, name)) dialog.value = 'unlockCase';
}

const isTable = ({ name }: { name: string }): boolean => /\.(csv|tsv|txt|cgats)$/i.test(name);
const isGuide = (file: File): boolean => isTable(file) || /\.guide\.json$/i.test(file.name);

const isJson = (file: File): boolean => file.type === 'application/json' || /\.json$/i.test(file.name);
/** For the desk as a whole, not for one photo. */
const ofDesk = (file: File): boolean => isTable(file) || /\.(swatches|work|guide)\.json$/i.test(file.name);

/** A file by itself: a photo, or what its name says. */
export function openAny(file: File): Promise<void> {
  const name = file.name || words.photo.unnamed;
  if (isCase(file)) return openCase(file, name);
  if (isGuide(file)) return openGuide(file, name);
  if (/\.swatches\.json$/i.test(name)) return openSwatches(file, name);
  if (/\.work\.json$/i.test(name)) return openWork(file, name);
  if (isJson(file) && nextStep(doc.value) !== 'photo') return openScene(file, name);
  return openPhoto(file, name);
}

const baseOf = (name: string): string => name.replace(/(\.scene)?\.[^.]+$/i, '');

/** What is done behind the photo that is looked at comes with the parts of the page that are fetched later. */
export async function layPhotos(...given: Parameters<typeof addPhotos>): Promise<void> {
  await (await parts())?.addPhotos(...given);
}

/** Picked files. One is looked at at once; of several each photo goes on the tray, with the scene that was saved under its name. */
export async function openFiles(files: readonly File[]): Promise<void> {
  const [only] = files;
  if (only && files.length === 1) return openAny(only);
  // Each becomes the one at hand; those before it are kept.
  for (const file of files.filter(isCase)) await openAny(file);
  const photos = files.filter((f) => !isJson(f) && !isCase(f) && !isTable(f));
  const sceneOf = ({ name }: File) => files.find((f) => isJson(f) && !ofDesk(f) && baseOf(f.name) === baseOf(name));
  const used = photos.map(sceneOf);
  for (const file of files) if (ofDesk(file) || (isJson(file) && !photos.length)) await openAny(file);
  if (!photos.length) return;
  showMode('photos');
  // A scene without its photo here would be put on another one: it fails as the photo that it is not.
  await layPhotos([...photos, ...files.filter((f) => isJson(f) && !ofDesk(f) && !used.includes(f))], sceneOf);
}

/** Dropped or pasted files. Where the tray is shown they are laid on it. */
export function openDropped(files: readonly File[]): Promise<void> {
  const laid = mode.value === 'photos' && photo.value && files.every((f) => !isJson(f) && !isCase(f) && !isTable(f));
  return laid ? layPhotos(files) : openFiles(files);
}

export async function loadDefaultGuide(): Promise<void> {
  try {
    defaultGuide.value = await desk.defaultGuide();
  } catch (error) {
    report(words.errors.startFailed, error);
  }
}
