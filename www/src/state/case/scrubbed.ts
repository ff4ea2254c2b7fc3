/** Photos freed of position, serial numbers and names, ready to be kept: each once, one after another, in the worker. */
import { caseDesk } from '../../engine/case_instance';
import type { OpenPhoto } from '../../engine/desk';
import { desk } from '../../engine/instance';
import { EngineError } from '../../engine/types';

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

/** A program that was ended or did not come says nothing about the photo: so often it is tried anew. */
const MOST_TRIES = 3;

async function freeOne(file: Blob): Promise<Freed> {
  for (let tries = 1; ; tries++) {
    try {
      return await caseDesk.scrub(file);
    } catch (error) {
      if (tries === MOST_TRIES || !(error instanceof EngineError && error.fault)) return 'refused';
    }
  }
}

/** Ready, whatever came of it. */
export function free(photo: OpenPhoto): Promise<void> {
  const before = begun.get(photo);
  if (before) return before;
  const file = desk.fileOf(photo);
  const mine = last.then(async () => {
    if (!file || freed.has(photo)) return;
    freed.set(photo, await freeOne(file));
  });
  last = mine;
  begun.set(photo, mine);
  return mine;
}
