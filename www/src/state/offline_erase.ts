/** Erases what the page kept on this device, and says what it could not. */
import { eraseCopy } from '../offline/erase_copy';
import { closeDatabase, DATABASE } from './case/store';

/** Where the page keeps things: the database of photos and cases, local storage, the program's copy. */
export type Place = 'database' | 'storage' | 'copy';

const KEYS = /^tabside\./;
/** Another window has to let go of the database; one that will not keeps it. */
const PATIENCE_MS = 3000;

function eraseDatabase(): Promise<void> {
  // From here on this window writes nothing into it, and neither do the others.
  closeDatabase();
  return new Promise((done, failed) => {
    const request = indexedDB.deleteDatabase(DATABASE);
    const late = setTimeout(() => failed(new Error('blocked')), PATIENCE_MS);
    request.onsuccess = () => (clearTimeout(late), done());
    request.onerror = () => (clearTimeout(late), failed(request.error));
  });
}

function eraseStorage(): void {
  for (const store of [localStorage, sessionStorage]) {
    for (const key of Object.keys(store)) if (KEYS.test(key)) store.removeItem(key);
  }
}

/** The places that could not be emptied. */
export async function eraseKept(): Promise<Place[]> {
  const ways: [Place, () => void | Promise<void>][] = [
    ['database', eraseDatabase],
    ['storage', eraseStorage],
    ['copy', eraseCopy],
  ];
  const left: Place[] = [];
  for (const [place, erase] of ways) {
    try {
      await erase();
    } catch {
      left.push(place);
    }
  }
  return left;
}
