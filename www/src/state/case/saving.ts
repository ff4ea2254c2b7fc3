/** Writes the case in hand, and says what could not be kept. */
import { words } from '../../words';
import { doc } from '../desk';
import type { Doc } from '../doc';
import { keptStains, workKept } from '../stains/kept';
import { problem, tell } from '../status';
import { current, newId, shownLabel, type CurrentCase } from './at_hand';
import { isUntouchedDemo } from './demo_case';
import { touch } from './due';
import { changedNow, fresh, hand, isEmptied, isWritten, takeInHand, touchAgain } from './hand';
import { isBare, picturesOf } from './kept_doc';
import { cases, markDeleted, tellOthers } from './list';
import { hold } from './locks';
import { Overtaken, pieceOf, there, write, writeFiles, type Piece } from './piece';
import { note } from './pointers';
import { safe } from './safe';
import { free, freedOf } from './scrubbed';
import { spaceShort } from './space';
import { letGo } from './stored_file';
import { KeepError, within } from './store';
import { tellKept, tellPhotosLeftOut, tellRefused, tellTrouble } from './words_of';

/** Photos that are just being freed are waited for so long: they come with the next writing. */
const WAIT_MS = 200;
/** What failed may pass: it is tried again without being asked. */
const AGAIN_MS = 5000;

/** No case is begun by it. */
export const isNothing = (now: Doc): boolean => isBare(now) || isUntouchedDemo(now);

async function begin(): Promise<CurrentCase> {
  const mine = fresh();
  const release = await hold(mine.id);
  const before = current.peek();
  if (before) release?.();
  else takeInHand(mine, { revision: 0, release, doc: null });
  return before ?? mine;
}

/** Its last photo was taken off: it is not written over, and can be brought back from the list. */
async function putAway(mine: CurrentCase): Promise<void> {
  if (hand.away) return;
  try {
    await markDeleted(mine.id);
    hand.away = true;
    tell(words.cases.emptied(shownLabel(mine)));
  } catch (error) {
    failed(error);
  }
}

/** Another window wrote this case: what is here goes on as a copy. */
async function becomeCopy(mine: CurrentCase): Promise<void> {
  const t = words.cases;
  const copy = { ...mine, id: newId(), label: t.copyFromWindow(shownLabel(mine)) };
  takeInHand(copy, { revision: 0, release: await hold(copy.id), doc: null });
  problem.value = { title: t.overtaken(shownLabel(mine)), text: t.overtakenText(copy.label), advice: '' };
}

async function freeAll(now: Doc): Promise<void> {
  const unready = picturesOf(now).filter((photo) => freedOf(photo) === undefined && !there.has(photo.print));
  if (!unready.length) return;
  const all = Promise.all(unready.map(free));
  await Promise.race([all, new Promise((late) => setTimeout(late, WAIT_MS))]);
  if (unready.some((photo) => freedOf(photo) === undefined)) void all.then(touchAgain);
}

export async function save(): Promise<void> {
  const newStains = (keptStains()?.at ?? 0) > hand.stainsAt;
  if (!current.peek() && isNothing(doc.peek())) return newStains ? saveStains() : undefined;
  if (isWritten() && !newStains) return;
  if (isEmptied()) {
    await putAway(current.peek()!);
    return newStains ? saveStains() : undefined;
  }
  hand.away = false;
  const { id } = current.peek() ?? (await begin());
  await freeAll(doc.peek());
  // As it is by now: what changed while it was waited for is written too.
  const [now, mine] = [doc.peek(), current.peek()];
  if (mine?.id !== id) return touch();
  const { came } = hand;
  const changed = isWritten() ? mine.changed : changedNow(mine);
  try {
    await saveAs(now, { ...mine, changed });
  } catch (error) {
    if (!(error instanceof Overtaken)) return failed(error);
    await becomeCopy(mine);
    return touchAgain();
  }
  // A picture that came meanwhile is not in it.
  if (current.peek()?.id === id && doc.peek() === now && hand.came === came) hand.written = { doc: now, label: mine.label };
}

async function saveAs(now: Doc, mine: CurrentCase): Promise<void> {
  const next = { revision: hand.revision + 1, stainsAt: hand.stainsAt, again: touchAgain };
  let piece = pieceOf(now, mine, next);
  let missing: string[];
  let leftOut = false;
  try {
    missing = await writeFiles(piece, hand.revision);
  } catch (error) {
    if (!(error instanceof KeepError) || error.trouble !== 'full') throw error;
    // The photos do not fit; outlines, notes and work may.
    leftOut = true;
    piece = pieceOf(now, mine, { ...next, withoutNew: true });
    missing = await write(piece, hand.revision);
  }
  const without = learn(now, mine, piece, missing);
  if (leftOut) tellPhotosLeftOut();
  else tellKept();
  tellRefused([...without].filter((photo) => freedOf(photo) === 'refused').map((p) => p.name));
  if (missing.length) touchAgain();
  if (piece.photos.some((p) => p.file)) void spaceShort();
}

/** It is written; gives the photos whose picture is not. */
function learn(now: Doc, mine: CurrentCase, { head, thumb, photos, stains }: Piece, missing: readonly string[]): ReturnType<typeof unkeptOf> {
  hand.revision = Math.max(hand.revision, head.revision);
  for (const { print, file } of photos) {
    if (!file) continue;
    there.set(print, file.size);
    letGo(file);
  }
  for (const print of missing) there.delete(print);
  if (stains) hand.stainsAt = stains.at;
  note(mine.id);
  const without = unkeptOf(now);
  const at = current.peek();
  if (at?.id === mine.id) {
    current.value = { ...at, changed: mine.changed };
    safe.value = { doc: now, without };
    workKept.value = true;
  }
  cases.changed({ ...head, thumb });
  tellOthers();
  return without;
}

const unkeptOf = (now: Doc) => new Set(picturesOf(now).filter((photo) => !photo.kept && !there.has(photo.print)));

function failed(error: unknown): void {
  workKept.value = false;
  const trouble = error instanceof KeepError ? error.trouble : 'failed';
  tellTrouble(trouble);
  if (trouble === 'failed' || trouble === 'full') setTimeout(touch, AGAIN_MS);
}

/** The user's stains alone, while no case is on the desk. */
async function saveStains(): Promise<void> {
  const stains = keptStains();
  if (!stains) return;
  try {
    await within('readwrite', (tx) => tx.objectStore('desk').put({ key: 'stains', value: stains }));
    hand.stainsAt = stains.at;
  } catch {
    // They are in the browser's other storage; that is told of there.
  }
}
