/** Opening photos, scenes, guides and the demo. What is open stays open until the new one is there. */
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import { words } from '../words';
import { change, defaultGuide, doc } from './desk';
import { EMPTY_SCENE } from './doc';
import { dropSearch, search } from './find';
import { nextStep } from './flow';
import { report } from './problems';
import { withPairTransform } from './scene_edit';
import { guideFromJson, sceneFromJson } from './scene_file';
import { openSwatches } from './stains/swatches';
import { openWork } from './stains/work_files';
import { problem, say, whileBusy } from './status';
import { previews } from './previews';
import { select, side, tool } from './ui';

async function decode(file: Blob, name: string): Promise<OpenPhoto | null> {
  problem.value = null;
  return whileBusy(words.busy.opening(name), async (signal, onPhase) => {
    const photo = await desk.open(file, name, { signal, onPhase, tooLarge: words.errors.fileTooLarge });
    await previews.load(photo, { signal, onPhase });
    return photo;
  });
}

export async function openPhoto(file: Blob, name: string): Promise<void> {
  try {
    const photo = await decode(file, name);
    if (!photo) return say(words.status.cancelled);
    change(words.edits.openPhoto(name), { photo, polarised: null, scene: EMPTY_SCENE, target: undefined, proposal: {} });
    select(null);
    tool.value = 'look';
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
    problem.value = null;
    say(words.status.sceneOpened(scene.regions.length));
  } catch (error) {
    report(words.errors.sceneFailed(name), error);
  }
}

export async function openGuide(file: Blob, name: string): Promise<void> {
  try {
    const guide = await desk.checkGuide(guideFromJson(await file.text()));
    change(words.edits.loadGuide(guide.name), { guide });
    say(words.status.guideLoaded(guide.name, guide.tabs.length));
  } catch (error) {
    report(words.errors.guideFailed(name), error);
  }
}

/** One click: the demo photo with its scene. The only files fetched after the page itself. */
export async function openDemo(): Promise<void> {
  try {
    const [file, text] = await Promise.all([
      fetch('./demo/demo.jpg').then((r) => need(r).blob()),
      fetch('./demo/scene.json').then((r) => need(r).text()),
    ]);
    const scene = sceneFromJson(text);
    const photo = await decode(file, words.demo.name);
    if (!photo) return say(words.status.cancelled);
    dropSearch();
    change(words.edits.openDemo, { photo, polarised: null, scene, target: undefined, proposal: {} });
    select(null);
    tool.value = 'look';
    side.value = 'sheet';
    say(words.status.opened(words.demo.name));
  } catch (error) {
    report(words.errors.demoFailed, error);
  }
}

function need(response: Response): Response {
  if (!response.ok) throw new Error(words.errors.notFound);
  return response;
}

/** A dropped, pasted or picked file: a photo, or a scene when its name says so. */
export function openAny(file: File): Promise<void> {
  const name = file.name || words.photo.unnamed;
  if (/\.swatches\.json$/i.test(name)) return openSwatches(file, name);
  if (/\.work\.json$/i.test(name)) return openWork(file, name);
  const isScene = file.type === 'application/json' || /\.json$/i.test(name);
  if (isScene && nextStep(doc.value) !== 'photo') return openScene(file, name);
  return openPhoto(file, name);
}

export async function loadDefaultGuide(): Promise<void> {
  try {
    defaultGuide.value = await desk.defaultGuide();
  } catch (error) {
    report(words.errors.startFailed, error);
  }
}
