/** Keeps the case on the desk: every change within a second, all of it or nothing. */
import { effect, untracked } from '@preact/signals';
import type { KeptPhotoReading, OpenPhoto } from '../../engine/desk';
import { words } from '../../words';
import { doc } from '../desk';
import type { Doc } from '../doc';
import { problem } from '../status';
import { keptStains, workKept, type KeptStains } from '../stains/kept';
import { reportOf } from '../tray/report_of';
import { wasSettled } from '../tray/reports';
import { current, newId, shownLabel, type CurrentCase } from './at_hand';
import { isUntouchedDemo, watchDemo } from './demo_case';
import { isBare, picturesOf, toKept, type KeptDoc } from './kept_doc';
import { cases, tellOthers } from './list';
import { hold } from './locks';
import { note, noteHere } from './pointers';
import { safe } from './safe';
import { free, freedOf } from './scrubbed';
import { spaceShort } from './space';
import { letGo, makeReady, refuseFiles, stored, takesFiles } from './stored_file';
import { atOnce, KeepError, Turned, within, type Head, type Transaction } from './store';
import { thumbOf } from './thumb';
import { tellKept, tellPhotosLeftOut, tellRefused, tellTrouble } from './words_of';

/** A change is written when there is quiet for so long, and at the latest after so long. */
const QUIET_MS = 200;
const LATEST_MS = 500;
/** Photos that are just being freed are waited for so long: they come with the next writing. */
const WAIT_MS = 200;

/** This window, until it is loaded again. */
export const WINDOW = newId();

let release: (() => void) | null = null;
let revision = 0;
let dirtySince: number | null = null;
let timer: ReturnType<typeof setTimeout> | undefined;
let running: Promise<void> = Promise.resolve();
let isRunning = false;
let stainsAt = 0;
/** Keys of photos that were seen in the database, with their size. */
const there = new Map<string, number>();

/** What is on the desk is this case from now on. */
export function takeInHand(next: CurrentCase | null, known: { revision: number; release: (() => void) | null; doc: Doc | null }): void {
  if (release !== known.release) release?.();
  release = known.release;
  revision = known.revision;
  written = known.doc && next ? { doc: known.doc, label: next.label } : null;
  current.value = next;
  noteHere(next?.id ?? null);
  workKept.value = known.doc !== null;
  safe.value = known.doc && { doc: known.doc, without: new Set() };
}

/** It lies in the database under its print. */
export const noteThere = (print: string, bytes: number): void => void there.set(print, bytes);

let written: { doc: Doc; label: string } | null = null;

const isWritten = (): boolean => written?.doc === doc.peek() && written.label === (current.peek()?.label ?? '');

export function touch(): void {
  const now = performance.now();
  dirtySince ??= now;
  clearTimeout(timer);
  timer = setTimeout(() => void flush(), Math.max(0, Math.min(QUIET_MS, dirtySince + LATEST_MS - now)));
}

/** Writes what is not written yet; gives whether everything is. */
export function flush(): Promise<boolean> {
  clearTimeout(timer);
  running = running.then(async () => {
    if (dirtySince === null) return;
    dirtySince = null;
    isRunning = true;
    try {
      await save();
    } finally {
      isRunning = false;
    }
  });
  return running.then(isSafe);
}

/** Nothing of the desk would be lost with it. */
function isSafe(): boolean {
  const [now, kept] = [doc.peek(), safe.peek()];
  return isBare(now) || isUntouchedDemo(now) || (kept?.doc === now && kept.without.size === 0);
}

const isHere = (photo: OpenPhoto): boolean => there.has(photo.print) || freedOf(photo) instanceof Blob;

/** Its numbers, for a photo whose picture is not kept. */
function reading(photo: OpenPhoto): KeptPhotoReading {
  const report = untracked(() => reportOf(photo));
  return { report, scale: 0 };
}

const keptDoc = (now: Doc, here: (photo: OpenPhoto) => boolean): KeptDoc => toKept(now, { isHere: here, reading, isSettled: wasSettled });

interface Piece {
  head: Omit<Head, 'thumb'>;
  thumb: Blob | null;
  doc: KeptDoc;
  photos: readonly { print: string; file: Blob | null }[];
  stains: KeptStains | null;
  at: number;
}

function pieceOf(now: Doc, mine: CurrentCase, next: number, here = isHere): Piece {
  const all = picturesOf(now);
  const kept = keptDoc(now, here);
  const photos = all.filter(here).map((photo) => {
    const file = freedOf(photo);
    return { print: photo.print, file: file instanceof Blob ? file : null };
  });
  const bytes = photos.reduce((sum, { print, file }) => sum + (file?.size ?? there.get(print) ?? 0), JSON.stringify(kept).length);
  const { work } = now.stains;
  const head = {
    ...mine, revision: next, names: all.map((p) => p.name), prints: photos.map((p) => p.print), bytes,
    by: WINDOW, work: work && work.label, empty: isBare(now),
  };
  const stains = keptStains();
  return { head, thumb: now.photo && thumbOf(now.photo, touchAgain), doc: kept, photos, stains: stains && stains.at > stainsAt ? stains : null, at: Date.now() };
}

/** The picture or a photo came; the document is the same. */
const touchAgain = (): void => {
  written = null;
  touch();
};

/** What cannot be written at all is thrown at once: as a promise it ends the transaction like the rest. */
function put(tx: Transaction<'readwrite'>, { head, thumb, doc: kept, stains, at }: Piece): Promise<unknown>[] {
  return [
    async () => tx.objectStore('cases').put({ ...head, thumb: thumb && stored(thumb) }),
    async () => tx.objectStore('docs').put({ id: head.id, doc: kept }),
    async () => tx.objectStore('desk').put({ key: 'last', value: { case: head.id, at } }),
    async () => stains && tx.objectStore('desk').put({ key: 'stains', value: stains }),
  ].map((act) => act());
}

/** Somebody else wrote this case since. */
class Overtaken extends Turned {}

/** Gives the prints that should be there and are not. */
const write = (piece: Piece, expected: number): Promise<string[]> =>
  within('readwrite', async (tx) => {
    const before = await tx.objectStore('cases').get(piece.head.id);
    if (before && before.by !== WINDOW && before.revision !== expected) throw new Overtaken();
    const store = tx.objectStore('photos');
    const at = new Date().toISOString();
    const missing: string[] = [];
    const puts = piece.photos.map(async ({ print, file }) => {
      if ((await store.getKey(print)) !== undefined) return;
      const bytes = file && stored(file);
      if (bytes) await store.put({ print, file: bytes, at });
      else missing.push(print);
    });
    await Promise.all([...puts, ...put(tx, piece)]);
    return missing;
  });

/** Files as they are; where the browser refuses that, their bytes. */
async function writeFiles(piece: Piece): Promise<string[]> {
  const files = [...piece.photos.flatMap(({ print, file }) => (file && !there.has(print) ? [file] : [])), ...(piece.thumb ? [piece.thumb] : [])];
  await makeReady(files);
  try {
    return await write(piece, revision);
  } catch (error) {
    if (!(error instanceof KeepError) || error.trouble !== 'failed' || files.length === 0 || !takesFiles()) throw error;
  }
  refuseFiles();
  await makeReady(files);
  return write(piece, revision);
}

async function begin(): Promise<CurrentCase> {
  const at = new Date().toISOString();
  const mine = { id: newId(), label: '', created: at, changed: at };
  takeInHand(mine, { revision: 0, release: await hold(mine.id), doc: null });
  return mine;
}

/** Another window wrote this case: what is here goes on as a copy. */
async function becomeCopy(mine: CurrentCase): Promise<CurrentCase> {
  const t = words.cases;
  const copy = { ...mine, id: newId(), label: t.copyFromWindow(shownLabel(mine)) };
  takeInHand(copy, { revision: 0, release: await hold(copy.id), doc: null });
  problem.value = { title: t.overtaken(shownLabel(mine)), text: t.overtakenText(copy.label), advice: '' };
  return copy;
}

async function save(): Promise<void> {
  let now = doc.peek();
  const newStains = (keptStains()?.at ?? 0) > stainsAt;
  if (!current.peek() && (isBare(now) || isUntouchedDemo(now))) return newStains ? saveStains() : undefined;
  if (isWritten() && !newStains) return;
  let mine = current.peek() ?? (await begin());
  const unready = picturesOf(now).filter((photo) => freedOf(photo) === undefined && !there.has(photo.print));
  if (unready.length) {
    const all = Promise.all(unready.map(free));
    await Promise.race([all, new Promise((late) => setTimeout(late, WAIT_MS))]);
    if (unready.some((photo) => freedOf(photo) === undefined)) void all.then(touchAgain);
  }
  // As it is by now: what changed while it was waited for is written too.
  if (current.peek()?.id !== mine.id) return touch();
  now = doc.peek();
  mine = current.peek()!;
  const label = mine.label;
  const changed = written && written.doc === now && written.label === label ? mine.changed : new Date().toISOString();
  mine = { ...mine, changed };
  try {
    await saveAs(now, mine);
  } catch (error) {
    if (error instanceof Overtaken) {
      await becomeCopy(mine);
      return touchAgain();
    }
    failed(error);
    return;
  }
  if (current.peek()?.id === mine.id && doc.peek() === now) written = { doc: now, label };
}

async function saveAs(now: Doc, mine: CurrentCase): Promise<void> {
  let piece = pieceOf(now, mine, revision + 1);
  let missing: string[];
  let leftOut = false;
  try {
    missing = await writeFiles(piece);
  } catch (error) {
    if (!(error instanceof KeepError) || error.trouble !== 'full') throw error;
    // The photos do not fit; outlines, notes and work may.
    leftOut = true;
    piece = pieceOf(now, mine, revision + 1, (photo) => there.has(photo.print));
    missing = await write(piece, revision);
  }
  revision = Math.max(revision, piece.head.revision);
  for (const { print, file } of piece.photos) {
    if (!file) continue;
    there.set(print, file.size);
    letGo(file);
  }
  for (const print of missing) there.delete(print);
  if (piece.stains) stainsAt = piece.stains.at;
  const without = new Set(picturesOf(now).filter((photo) => !photo.kept && !there.has(photo.print)));
  note(mine.id);
  if (current.peek()?.id === mine.id) {
    current.value = { ...current.peek()!, changed: mine.changed };
    safe.value = { doc: now, without };
    workKept.value = true;
  }
  cases.changed({ ...piece.head, thumb: piece.thumb });
  tellOthers();
  if (leftOut) tellPhotosLeftOut();
  else tellKept();
  tellRefused([...without].filter((photo) => freedOf(photo) === 'refused').map((p) => p.name));
  if (missing.length) touchAgain();
  if (piece.photos.some((p) => p.file)) void spaceShort();
}

/** It may pass: it is tried again without being asked. */
const AGAIN_MS = 5000;

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
    stainsAt = stains.at;
  } catch {
    // They are in the browser's other storage; that is told of there.
  }
}

/** The page goes away: what is not written is, as far as it is ready, without waiting for anything. */
function goingAway(): void {
  const [now, mine] = [doc.peek(), current.peek()];
  if (dirtySince === null || !mine || isWritten()) return void flush();
  revision += isRunning ? 2 : 1;
  const piece = pieceOf(now, { ...mine, changed: new Date().toISOString() }, revision);
  atOnce((tx) => {
    for (const { print, file } of piece.photos) {
      const bytes = file && !there.has(print) && stored(file);
      if (bytes) void tx.objectStore('photos').put({ print, file: bytes, at: piece.head.changed }).catch(() => {});
    }
    for (const done of put(tx, piece)) done.catch(() => {});
  });
}

/** Which case is on the desk from now on, should the page be ended before anything is done to it. */
export async function writeLast(id: string | null): Promise<void> {
  note(id);
  await within('readwrite', (tx) => tx.objectStore('desk').put({ key: 'last', value: { case: id, at: Date.now() } })).catch(() => {});
}

export function startKeeper(stainsKeptAt: number): () => void {
  stainsAt = stainsKeptAt;
  const hidden = () => document.visibilityState === 'hidden' && void flush();
  document.addEventListener('visibilitychange', hidden);
  window.addEventListener('pagehide', goingAway);
  const stops = [
    watchDemo(),
    effect(() => {
      void doc.value;
      void current.value?.label;
      if (!isWritten()) untracked(touch);
    }),
  ];
  return () => {
    stops.forEach((stop) => stop());
    clearTimeout(timer);
    document.removeEventListener('visibilitychange', hidden);
    window.removeEventListener('pagehide', goingAway);
  };
}
