/** Going from case to case. What was on the desk stays in the list; where it could not be kept, it is one step of undo away. */
import { batch } from '@preact/signals';
import { words } from '../../words';
import '../../words/later';
import { change, doc, putDesk } from '../desk';
import { EMPTY_DOC, type Doc } from '../doc';
import { dropSearch, search } from '../find';
import { problem, say } from '../status';
import { withoutCase } from '../stains/stains_doc';
import { opening } from '../tray/incoming';
import { isEmpty } from '../tray/laid';
import { lookAfresh } from '../tray/show';
import { settle, wasSettled } from '../tray/reports';
import { mode, showMode, side } from '../ui';
import { current, newId, notice, shownLabel, type CurrentCase } from './at_hand';
import { fromKept, isBare, keptFrom, picturesOf, type Restored } from './kept_doc';
import { touch } from './due';
import { hand, takeInHand } from './hand';
import { headFrom, isStored } from './heads';
import { flush, writeLast } from './keeper';
import { bringBack, duplicate, markDeleted, renameKept } from './list';
import { hold } from './locks';
import { forgetOpened } from './opened';
import { damaged, there } from './piece';
import { noteFreed } from './scrubbed';
import { within, type Head } from './store';
import { fileFrom } from './stored_file';
import { noteThumb } from './thumb';

export { current, notice, shownLabel, type CurrentCase } from './at_hand';

export interface Meta {
  readonly label?: string | undefined;
  readonly created?: string | undefined;
  readonly readOnly?: boolean;
}

/** Why another case cannot be put on the desk. */
export type Hindrance = 'opening' | 'elsewhere' | 'gone' | 'damaged' | 'unreachable';

export interface Found {
  readonly head: Head;
  readonly restored: Restored;
}

/** A case out of the database, made ready for the desk. Nothing on the desk changes here. */
export async function readCase(id: string): Promise<Found | Hindrance> {
  let found;
  try {
    found = await within('readonly', async (tx) => {
      const [was, kept] = await Promise.all([tx.objectStore('cases').get(id), tx.objectStore('docs').get(id)]);
      const head = headFrom(was);
      if (!head || head.deleted) return null;
      const photos = await Promise.all(head.prints.map((print) => tx.objectStore('photos').get(print)));
      // What is no file is written anew when its photo comes again.
      for (const [i, print] of head.prints.entries()) if (photos[i] && !isStored(photos[i].file)) damaged.add(print);
      return { head, doc: kept?.doc, files: new Map(photos.flatMap((photo) => (photo && isStored(photo.file) ? [[photo.print, fileFrom(photo.file)] as const] : []))) };
    });
  } catch {
    return 'unreachable';
  }
  if (!found) return 'gone';
  const { head, doc: kept, files } = found;
  try {
    const restored = fromKept(keptFrom(kept), doc.peek().stains, (print) => files.get(print));
    for (const photo of picturesOf(restored.doc)) {
      const file = files.get(photo.print);
      if (!file) continue;
      noteFreed(photo, file);
      there.set(photo.print, file.size);
    }
    restored.settled.forEach(settle);
    if (restored.doc.photo && head.thumb) noteThumb(restored.doc.photo, fileFrom(head.thumb));
    return { head, restored };
  } catch {
    return 'damaged';
  }
}

function lookAnew(quiet = true): void {
  forgetOpened();
  lookAfresh();
  dropSearch();
  if (quiet) problem.value = null;
  side.value = 'photo';
  const { photo, scene } = doc.peek();
  if (photo && isEmpty(scene) && !photo.kept && !wasSettled(photo)) void search(photo);
}

/** A kept case is on the desk, as it was. */
export function putOnDesk({ head, restored }: Found, release: () => void): void {
  const { id, label, created, changed, readOnly = false, revision } = head;
  batch(() => {
    putDesk(restored.doc);
    takeInHand({ id, label, created, changed, readOnly }, { revision, release, doc: restored.doc });
    if (notice.value?.id === id) notice.value = null;
  });
  lookAnew();
  if (restored.missing.length) problem.value = { title: words.cases.photosMissing(restored.missing), text: words.cases.photosMissingText, advice: '' };
}

/**
 * Leaves the desk to another document, which is a case of its own. What could not be kept is one step of
 * undo away, and what is kept of it is not written over. Gives whether all was kept.
 */
function leaveFor(next: Doc, label: string, safe: boolean, mine: CurrentCase | null = null, release: (() => void) | null = null): void {
  batch(() => {
    if (safe) putDesk(next);
    else change(label, next);
    takeInHand(safe ? mine : null, { revision: 0, release: safe ? release : null, doc: null });
  });
  if (!safe) release?.();
  lookAnew(safe);
}

/** An empty desk. What was there stays in the list. */
export async function newCase(said = true): Promise<Hindrance | null> {
  if (opening.peek()) return 'opening';
  const safe = await flush();
  leaveFor({ ...EMPTY_DOC, stains: withoutCase(doc.peek().stains) }, words.cases.edits.begin, safe);
  mode.value = 'reading';
  if (said || !safe) say(safe ? words.cases.begun : words.cases.begunUnkept);
  if (safe) await writeLast(null);
  return null;
}

/** A case of the list comes on the desk, as it was left. */
export async function openKept(id: string): Promise<Hindrance | null> {
  if (opening.peek()) return 'opening';
  if (current.peek()?.id === id) return null;
  const release = await hold(id);
  if (!release) return 'elsewhere';
  const found = await readCase(id);
  if (typeof found === 'string') {
    release();
    return found;
  }
  const safe = await flush();
  if (safe) putOnDesk(found, release);
  else leaveFor(found.restored.doc, words.cases.edits.open(shownLabel(found.head)), false, null, release);
  showMode('reading');
  side.value = 'photo';
  say(words.cases.opened(shownLabel(found.head)));
  if (safe) await writeLast(id);
  return null;
}

/** A copy of a case, which may be open in another window, comes on the desk. */
export async function openCopy(id: string): Promise<Hindrance | null> {
  const copy = await duplicate(id, (head) => words.cases.copyOf(shownLabel(head))).catch(() => null);
  if (notice.value?.id === id) notice.value = null;
  return copy === null ? 'gone' : openKept(copy);
}

/** A label is free, never required. */
export async function rename(id: string, label: string): Promise<void> {
  const now = current.peek();
  if (now?.id === id) {
    current.value = { ...now, label: label.trim() };
    touch();
    await flush();
  } else await renameKept(id, label.trim());
}

/** Out of the list; gives why not. The case on the desk leaves it empty. */
export async function remove(id: string): Promise<Hindrance | null> {
  if (current.peek()?.id === id) {
    const hindered = await newCase(false);
    if (hindered) return hindered;
  } else {
    const release = await hold(id);
    if (!release) return 'elsewhere';
    release();
  }
  await markDeleted(id);
  return null;
}

/** What was deleted is in the list again; on the desk too, should the desk be empty since. */
export async function takeBack(id: string): Promise<void> {
  await bringBack(id);
  if (current.peek()?.id !== id || !isBare(doc.peek())) return;
  const found = await readCase(id);
  if (typeof found !== 'string') putOnDesk(found, hand.release ?? (() => {}));
}

/**
 * A case that came from elsewhere (a file) becomes the one on the desk, as a new one in the list; what was
 * on the desk stays there. Its photos are open already (`desk.open`, `desk.adopt`). `label` and `created`
 * are the file's; it counts as changed now. Gives false when what was on the desk could not be kept: then undo brings it back.
 */
export async function putCase(next: Partial<Doc>, { label = '', created, readOnly = false }: Meta): Promise<boolean> {
  const at = new Date().toISOString();
  const mine = { id: newId(), label, created: created && !Number.isNaN(Date.parse(created)) ? created : at, changed: at, readOnly };
  const release = await hold(mine.id);
  const safe = await flush();
  leaveFor({ ...EMPTY_DOC, stains: doc.peek().stains, ...next }, words.cases.edits.open(shownLabel(mine)), safe, mine, release);
  touch();
  return safe;
}
