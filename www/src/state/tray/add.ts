/** Several photos at once: each is opened and laid on the tray; what cannot be opened is told by its name. */
import { batch } from '@preact/signals';
import type { CallOptions } from '../../engine/client';
import { fingerprint } from '../../engine/fingerprint';
import { desk } from '../../engine/instance';
import { words } from '../../words';
import { change, doc } from '../desk';
import { search } from '../find';
import { previews } from '../previews';
import { describe } from '../problems';
import { sceneFromJson } from '../scene_file';
import { problem, say } from '../status';
import { readerToOpen } from './behind';
import { incoming, opening, type Incoming } from './incoming';
import { sayJoined } from './joined';
import { isGone, openAlready, openPhotos, withLaid } from './laid';
import { again } from './lanes';
import { room, sayFull } from './room';
import { lookAfresh, pictureBack } from './show';
import { thumbs } from './thumbs';

const put = (one: Incoming, ...instead: Incoming[]): void => {
  incoming.value = incoming.value.flatMap((i) => (i.file === one.file ? instead : [i]));
};
const waiting = (): readonly Incoming[] => incoming.value.filter((i) => i.state === 'waiting');

/** Takes one that failed off the list. */
export const dismiss = (one: Incoming): void => put(one);

/** Gives false for a file that is open already, under whatever name. */
async function lay(one: Incoming, key: string, options: CallOptions): Promise<boolean> {
  const open = openAlready(doc.value, await fingerprint(one.file));
  if (open) return isGone(open) && (await pictureBack(open, one.file)) !== null;
  const scene = one.scene && sceneFromJson(await one.scene.text());
  const photo = await desk.open(one.file, one.name, { ...options, tooLarge: words.errors.fileTooLarge });
  try {
    await thumbs.load(photo, options);
    if (!doc.value.photo) await previews.load(photo, options);
  } catch (error) {
    desk.close(photo);
    throw error;
  }
  const first = !doc.value.photo;
  change(first ? words.edits.openPhoto(one.name) : words.tray.lay, withLaid(doc.value, photo, scene), first ? null : key);
  if (!first) return true;
  lookAfresh();
  if (!scene) void search(photo);
  return true;
}

let batches = 0;

async function run(): Promise<void> {
  const t = words.tray;
  const key = `lay ${++batches}`;
  const failed: Incoming[] = [];
  const already: string[] = [];
  const abort = new AbortController();
  let opened = 0;
  const before = openPhotos(doc.value).map((l) => l.photo);
  for (let one = waiting()[0]; one && !abort.signal.aborted; one = waiting()[0]) {
    const at = opened + already.length + failed.length + 1;
    opening.value = { at, of: at - 1 + waiting().length, name: one.name, cancel: () => abort.abort() };
    const slot = await readerToOpen(abort.signal);
    if (!slot) break;
    const giveUp = () => slot.abort();
    abort.signal.addEventListener('abort', giveUp);
    put(one, { ...one, state: 'opening' });
    try {
      if (await lay(one, key, slot)) opened++;
      else already.push(one.name);
      put(one);
    } catch (error) {
      if (abort.signal.aborted) break;
      if (again(slot, error)) put(one, one);
      else {
        failed.push({ ...one, state: 'failed', why: describe(error).text });
        put(one, failed.at(-1)!);
      }
    } finally {
      abort.signal.removeEventListener('abort', giveUp);
      slot.end();
    }
  }
  sayJoined(before);
  const left = incoming.value.length - failed.length;
  batch(() => {
    incoming.value = failed;
    opening.value = null;
  });
  const said = left ? t.cancelled(opened, left) : opened || !already.length ? t.added(opened) : '';
  say([said, already.length && t.already(already)].filter(Boolean).join(' '));
  if (failed.length) problem.value = { title: t.failed(failed.length, failed.length + opened + already.length + left), text: t.whys(failed), advice: opened ? t.others : '' };
}

/** What was said about files that failed before is not said again. */
export async function addPhotos(files: readonly File[], sceneOf: (file: File) => File | undefined = () => undefined): Promise<void> {
  const most = room();
  const taken = files.slice(0, most).map((file): Incoming => ({ file, name: file.name || words.photo.unnamed, scene: sceneOf(file), state: 'waiting', why: '' }));
  incoming.value = [...(opening.value ? incoming.value : []), ...taken];
  if (taken.length && !opening.value) {
    problem.value = null;
    say(words.tray.opening);
    await run();
  }
  if (files.length > most) sayFull(...files.slice(most).map((f) => f.name));
}
