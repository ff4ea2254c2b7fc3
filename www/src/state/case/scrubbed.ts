/** Photos freed of position, serial numbers and names, ready to be kept: each once, one after another, in the worker. */
import { caseDesk } from '../../engine/case_instance';
import type { OpenPhoto } from '../../engine/desk';
import { desk } from '../../engine/instance';

type Freed = Blob | 'refused';

const freed = new WeakMap<OpenPhoto, Freed>();
const begun = new WeakMap<OpenPhoto, Promise<void>>();
let last: Promise<unknown> = Promise.resolve();

/** It came from the database, or stands there already. */
export const noteFreed = (photo: OpenPhoto, file: Blob): void => void freed.set(photo, file);

/** `undefined` while it is not ready, `null` when there is nothing to keep, `'refused'` when it cannot be freed for certain. */
export function freedOf(photo: OpenPhoto): Freed | null | undefined {
  const known = freed.get(photo);
  if (known) return known;
  try {
    return desk.fileOf(photo) ? undefined : null;
  } catch {
    return null;
  }
}

/** Ready, whatever came of it. */
export function free(photo: OpenPhoto): Promise<void> {
  const before = begun.get(photo);
  if (before) return before;
  const file = desk.fileOf(photo);
  const mine = last.then(async () => {
    if (!file || freed.has(photo)) return;
    try {
      freed.set(photo, await caseDesk.scrub(file));
    } catch {
      freed.set(photo, 'refused');
    }
  });
  last = mine;
  begun.set(photo, mine);
  return mine;
}
