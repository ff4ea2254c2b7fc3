/** Looking at another photo, and taking one off. */
import { batch } from '@preact/signals';
import type { OpenPhoto } from '../../engine/desk';
import { fingerprint } from '../../engine/fingerprint';
import { desk } from '../../engine/instance';
import { words } from '../../words';
import { change, doc, lookAt } from '../desk';
import type { Doc } from '../doc';
import { dropSearch, search } from '../find';
import { previews } from '../previews';
import { report } from '../problems';
import { reading } from '../reading';
import { say, whileBusy } from '../status';
import { chosenRestoration, chosenTab, ladderOf, select, side, tool } from '../ui';
import { isEmpty, isGone, openAlready, without, withPicture, withShown } from './laid';
import { trayReports, wasSettled } from './reports';

/** What was chosen in the photo before is nothing in this one. */
export function lookAfresh(): void {
  select(null);
  tool.value = 'look';
  chosenRestoration.value = chosenTab.value = ladderOf.value = null;
}

/** The photo as it is shown has to be there before it is looked at. Gives false when cancelled. */
const pictured = async (photo: OpenPhoto): Promise<boolean> =>
  previews.has(photo) || (await whileBusy(words.busy.opening(photo.name), async (signal, onPhase) => (await previews.load(photo, { signal, onPhase }), true))) === true;

function looked(photo: OpenPhoto): void {
  lookAfresh();
  if (isEmpty(doc.value.scene) && !wasSettled(photo)) void search(photo);
  else dropSearch();
}

/** Looks at a photo of the tray; the one before takes its place. No step of undo. */
export async function showLaid(photo: OpenPhoto): Promise<void> {
  try {
    if (!(await pictured(photo))) return say(words.status.cancelled);
    const next = withShown(doc.value, photo);
    if (!next) return;
    const known = trayReports.value.get(photo.handle);
    batch(() => {
      lookAt(next);
      // Its numbers are known: they stand until it is read again.
      if (known) reading.value = { doc: doc.value, report: known.report };
    });
    looked(photo);
    side.value = 'photo';
    say(words.tray.shown(words.photo.shown(photo.name)));
  } catch (error) {
    report(words.tray.showFailed(photo.name), error);
  }
}

/** A photo whose picture was not kept, and its file again: what was made of it stays. */
export async function pictureBack(gone: OpenPhoto, file: Blob): Promise<OpenPhoto | null> {
  const photo = await whileBusy(words.busy.opening(gone.name), (signal, onPhase) => desk.open(file, gone.name, { signal, onPhase, tooLarge: words.errors.fileTooLarge }));
  if (!photo) return null;
  if (doc.value.photo === gone) await previews.load(photo);
  change(words.edits.openPhoto(gone.name), withPicture(doc.value, gone, photo));
  return photo;
}

/** A file that is open already is looked at; gives whether it was. */
export async function showIfOpen(file: Blob): Promise<boolean> {
  let open = openAlready(doc.value, await fingerprint(file));
  if (!open) return false;
  if (isGone(open)) {
    const back = await pictureBack(open, file);
    if (!back) return true;
    open = back;
  }
  if (open === doc.value.photo) side.value = 'photo';
  else await showLaid(open);
  if (open === doc.value.photo) say(words.tray.already([words.photo.shown(open.name)]));
  return true;
}

export async function takeOff(photo: OpenPhoto): Promise<void> {
  const name = words.photo.shown(photo.name);
  const next = (): Partial<Doc> => without(doc.value, photo);
  const follower = next().photo;
  try {
    if (follower && !(await pictured(follower))) return say(words.status.cancelled);
  } catch (error) {
    return report(words.tray.showFailed(follower?.name ?? name), error);
  }
  change(words.tray.takenOff(name), next());
  // Undefined when the one that is looked at stays.
  if (follower) looked(follower);
  else if (follower === null) dropSearch();
  say(words.tray.off(name));
}
