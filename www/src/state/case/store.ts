/**
 * The database in the browser: cases, their documents, their photos, and what the desk remembers.
 * Everything that belongs together is written in one transaction, and has reached the disk when it is done.
 */
import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from 'idb';
import type { Stored } from './stored_file';

export const DATABASE = 'tabside';
const VERSION = 1;

/** What the list shows of a case. */
export interface Head {
  readonly id: string;
  readonly label: string;
  /** ISO 8601 in UTC, like `changed`. */
  readonly created: string;
  readonly changed: string;
  /** Made by a newer version. */
  readonly readOnly?: boolean;
  /** Counts up with every writing: who wrote last is told by it. */
  readonly revision: number;
  /** The window that wrote it last. */
  readonly by: string;
  readonly thumb: Stored | null;
  /** What its photos are called. */
  readonly names: readonly string[];
  /** Under which keys its photos are kept. */
  readonly prints: readonly string[];
  /** Of document and photos. */
  readonly bytes: number;
  /** The label of its work; `null` without one. */
  readonly work: string | null;
  /** Nothing lies in it (any more). */
  readonly empty: boolean;
  /** When it was deleted: for a while it can be brought back. */
  readonly deleted?: string;
}

interface Kept extends DBSchema {
  cases: { key: string; value: Head };
  /** `doc` is checked when it is read. */
  docs: { key: string; value: { id: string; doc: unknown } };
  photos: { key: string; value: { print: string; file: Stored; at: string } };
  desk: { key: string; value: { key: string; value: unknown } };
}

type Name = 'cases' | 'docs' | 'photos' | 'desk';
const NAMES: Name[] = ['cases', 'docs', 'photos', 'desk'];
export type Transaction<M extends IDBTransactionMode> = IDBPTransaction<Kept, Name[], M>;

/** No storage here; a newer page's; full; erased from some window; anything else. */
export type Trouble = 'refused' | 'newer' | 'full' | 'erased' | 'failed';

export class KeepError extends Error {
  override readonly name = 'KeepError';
  constructor(
    readonly trouble: Trouble,
    cause?: unknown,
  ) {
    super(trouble, { cause });
  }
}

let connection: Promise<IDBPDatabase<Kept>> | null = null;
let shut: Trouble | null = null;

const named = (error: unknown): string => (error as { name?: string } | null)?.name ?? '';

/** Some browsers name the database and give none, or say nothing at all. */
const PATIENCE_MS = 8000;

async function inTime(opened: Promise<IDBPDatabase<Kept>>): Promise<IDBPDatabase<Kept>> {
  let late: ReturnType<typeof setTimeout> | undefined;
  const patience = new Promise<never>((_, fail) => {
    late = setTimeout(() => {
      fail(new KeepError('refused'));
      void opened.then((db) => db.close()).catch(() => {});
    }, PATIENCE_MS);
  });
  return Promise.race([opened, patience]).finally(() => clearTimeout(late));
}

async function connect(): Promise<IDBPDatabase<Kept>> {
  try {
    const opened = openDB<Kept>(DATABASE, VERSION, {
      upgrade(db) {
        db.createObjectStore('cases', { keyPath: 'id' });
        db.createObjectStore('docs', { keyPath: 'id' });
        db.createObjectStore('photos', { keyPath: 'print' });
        db.createObjectStore('desk', { keyPath: 'key' });
      },
      // Another window erases everything, or holds a newer page.
      blocking(_, next) {
        closeDatabase(next === null ? 'erased' : 'newer');
      },
      terminated() {
        connection = open = null;
      },
    });
    return await inTime(opened);
  } catch (error) {
    throw error instanceof KeepError ? error : new KeepError(named(error) === 'VersionError' ? 'newer' : named(error) === 'QuotaExceededError' ? 'full' : 'refused', error);
  }
}

function database(): Promise<IDBPDatabase<Kept>> {
  if (shut) return Promise.reject(new KeepError(shut));
  if (connection) return connection;
  const mine = (connection = connect());
  // The next time it may be had.
  mine.catch(() => {
    if (connection === mine) connection = null;
  });
  return mine;
}

let open: IDBPDatabase<Kept> | null = null;

/** Lets go of the database: from now on this window keeps nothing, until it is loaded again. */
export function closeDatabase(why: Trouble = 'erased'): void {
  shut = why;
  open = null;
  void connection?.then((db) => db.close()).catch(() => {});
  connection = null;
}

/** Why nothing can be kept in this window any more. */
export const shutBy = (): Trouble | null => shut;

/** For tests: as if the page was loaded again. */
export async function reopenDatabase(): Promise<void> {
  const before = connection;
  connection = open = shut = null;
  await before?.then((db) => db.close()).catch(() => {});
}

/** All or nothing. Throws a `KeepError`, or what `work` throws. */
export async function within<T, M extends 'readonly' | 'readwrite'>(mode: M, work: (tx: Transaction<M>) => Promise<T>): Promise<T> {
  const db = (open = await database());
  let tx: Transaction<M>;
  try {
    tx = db.transaction(NAMES, mode, { durability: 'strict' }) as Transaction<M>;
  } catch (error) {
    // The browser lost it without a word: the next time it is opened anew.
    connection = open = null;
    throw new KeepError(shut ?? 'failed', error);
  }
  // A request that fails ends the transaction by itself; to end it in the middle of that leaves it open for ever in WebKit.
  let ending = false;
  tx.addEventListener('error', () => (ending = true), true);
  const ended = tx.done.then(() => null, (error: unknown) => error ?? new Error('aborted'));
  try {
    const result = await work(tx);
    const failed = await ended;
    if (failed) throw failed;
    return result;
  } catch (error) {
    try {
      if (!ending) tx.abort();
    } catch {
      // It has ended already.
    }
    const why = await ended;
    if (error instanceof Turned) throw error;
    const full = [error, why].some((e) => named(e) === 'QuotaExceededError');
    throw new KeepError(full ? 'full' : (shut ?? 'failed'), error);
  }
}

/** Ends a transaction without anything written, for a reason of its own. */
export class Turned extends Error {}

/** Writes with what is known, at once and without a look: for a page that is going away. */
export function atOnce(work: (tx: Transaction<'readwrite'>) => void): void {
  if (!open) return;
  try {
    const tx = open.transaction(NAMES, 'readwrite', { durability: 'strict' });
    tx.done.catch(() => {});
    work(tx);
    tx.commit();
  } catch {
    // The browser has closed it by now.
  }
}
