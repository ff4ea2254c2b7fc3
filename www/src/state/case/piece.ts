/** What is written of a case at once, and the writing of it: all or nothing. */
import { untracked } from '@preact/signals';
import type { KeptPhotoReading, OpenPhoto } from '../../engine/desk';
import type { Doc } from '../doc';
import { keptStains, type KeptStains } from '../stains/kept';
import { reportOf } from '../tray/report_of';
import { wasSettled } from '../tray/reports';
import { newId, type CurrentCase } from './at_hand';
import { isBare, picturesOf, toKept, type KeptDoc } from './kept_doc';
import { freedOf } from './scrubbed';
import { makeReady, refuseFiles, stored } from './stored_file';
import { atOnce, Turned, within, type Head, type KeepError, type Transaction } from './store';
import { thumbOf } from './thumb';

/** This window, until it is loaded again. */
export const WINDOW = newId();

/** Keys of photos that were seen in the database, with their size. */
export const there = new Map<string, number>();
/** Keys under which something else than a photo was found. */
export const damaged = new Set<string>();

const isHere = (photo: OpenPhoto): boolean => there.has(photo.print) || freedOf(photo) instanceof Blob;

/** Its numbers, for a photo whose picture is not kept. */
function reading(photo: OpenPhoto): KeptPhotoReading {
  const report = untracked(() => reportOf(photo));
  return { report, scale: 0 };
}

export interface Piece {
  head: Omit<Head, 'thumb'>;
  thumb: Blob | null;
  doc: KeptDoc;
  photos: readonly { print: string; file: Blob | null }[];
  stains: KeptStains | null;
  at: number;
}

export interface Wanted {
  readonly revision: number;
  /** When the stains were written last (ms). */
  readonly stainsAt: number;
  /** The small picture was made. */
  readonly again: () => void;
  /** Only photos that are in the database already. */
  readonly withoutNew?: boolean;
}

export function pieceOf(now: Doc, mine: CurrentCase, { revision, stainsAt, again, withoutNew }: Wanted): Piece {
  const here = withoutNew ? (photo: OpenPhoto) => there.has(photo.print) : isHere;
  const all = picturesOf(now);
  const kept = toKept(now, { isHere: here, reading, isSettled: wasSettled });
  const photos = all.filter(here).map((photo) => {
    const file = freedOf(photo);
    return { print: photo.print, file: file instanceof Blob ? file : null };
  });
  const bytes = photos.reduce((sum, { print, file }) => sum + (file?.size ?? there.get(print) ?? 0), JSON.stringify(kept).length);
  const { work } = now.stains;
  const head = {
    ...mine, revision, names: all.map((p) => p.name), prints: photos.map((p) => p.print), bytes,
    by: WINDOW, work: work && work.label, empty: isBare(now),
  };
  const stains = keptStains();
  return { head, thumb: now.photo && thumbOf(now.photo, again), doc: kept, photos, stains: stains && stains.at > stainsAt ? stains : null, at: Date.now() };
}

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
export class Overtaken extends Turned {}

/** Gives the prints that should be there and are not. */
export const write = (piece: Piece, expected: number): Promise<string[]> =>
  within('readwrite', async (tx) => {
    const before = await tx.objectStore('cases').get(piece.head.id);
    if (before && before.by !== WINDOW && before.revision !== expected) throw new Overtaken();
    const store = tx.objectStore('photos');
    const at = new Date().toISOString();
    const missing: string[] = [];
    const puts = piece.photos.map(async ({ print, file }) => {
      if (!damaged.has(print) && (await store.getKey(print)) !== undefined) return;
      const bytes = file && stored(file);
      if (bytes) await store.put({ print, file: bytes, at }).then(() => damaged.delete(print));
      else missing.push(print);
    });
    await Promise.all([...puts, ...put(tx, piece)]);
    return missing;
  });

/** Asked once, in a transaction of its own: to find out by the way leaves others waiting for ever in WebKit. */
const takesFiles = (): Promise<boolean> =>
  within('readwrite', async (tx) => {
    const desk = tx.objectStore('desk');
    await desk.put({ key: 'trial', value: new Blob(['trial']) });
    await desk.delete('trial');
    return true;
  }).catch((error: unknown) => (error as KeepError).trouble !== 'failed');

let tried = false;

/** Files as they are; where the browser refuses that, their bytes. */
export async function writeFiles(piece: Piece, expected: number): Promise<string[]> {
  const files = [...piece.photos.flatMap(({ print, file }) => (file && !there.has(print) ? [file] : [])), ...(piece.thumb ? [piece.thumb] : [])];
  if (!tried && files.length > 0 && !(await takesFiles())) refuseFiles();
  tried ||= files.length > 0;
  await makeReady(files);
  return write(piece, expected);
}

/** What is ready of it, without a look and without waiting: for a page that is going away. */
export const writeAtOnce = (piece: Piece): void =>
  atOnce((tx) => {
    for (const { print, file } of piece.photos) {
      const bytes = file && !there.has(print) && stored(file);
      if (bytes) tx.objectStore('photos').put({ print, file: bytes, at: piece.head.changed }).catch(() => {});
    }
    for (const done of put(tx, piece)) done.catch(() => {});
  });
