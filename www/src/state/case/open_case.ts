/** Opening a case file. What is open stays until all of it is ready. */
import { batch, signal } from '@preact/signals';
import { caseDesk } from '../../engine/case_instance';
import { words } from '../../words';
import { doc } from '../desk';
import { dialog } from '../dialogs';
import { previews } from '../previews';
import { report } from '../problems';
import { problem, say, whileBusy } from '../status';
import { showMode, side } from '../ui';
import { putCase } from './current';
import { fromCase } from './from_case';
import { isLocked, LockError, unlock, type LockFault } from './locked';
import { noteOpened } from './opened';

/** An encrypted file that waits for its passphrase. */
export const waitingFile = signal<{ file: Blob; name: string; fault: LockFault | null } | null>(null);

/** Gives whether it waits for its passphrase. */
export async function openCaseFile(file: Blob, name: string): Promise<boolean> {
  problem.value = null;
  const locked = await isLocked(file);
  if (locked) waitingFile.value = { file, name, fault: null };
  else await openPlain(file, name);
  return locked;
}

/**
 * Gives whether the dialog is done with it. What was given up while its passphrase was tried (deriving the key takes
 * its time) is not opened and says nothing more: by then the dialog may ask for another file, or be another one.
 */
export async function unlockWaiting(passphrase: string): Promise<boolean> {
  const waiting = waitingFile.value;
  if (!waiting) return true;
  const givenUp = () => waitingFile.value !== waiting || dialog.value !== 'unlockCase';
  try {
    const plain = await unlock(waiting.file, passphrase);
    if (givenUp()) return false;
    waitingFile.value = null;
    await openPlain(plain, waiting.name);
    return true;
  } catch (error) {
    if (givenUp()) return false;
    if (!(error instanceof LockError)) throw error;
    waitingFile.value = { ...waiting, fault: error.fault };
    return false;
  }
}

async function openPlain(file: Blob, name: string): Promise<void> {
  const t = words.caseFile;
  try {
    const found = await whileBusy(t.opening(name), async (signal, onPhase) => {
      const options = { signal, onPhase, tooLarge: t.tooLarge };
      const opened = await caseDesk.read(file, options);
      const ready = await fromCase(opened, doc.value.stains, options);
      if (ready.doc.photo) await previews.load(ready.doc.photo, options).catch(() => {});
      return { opened, ready };
    });
    if (!found) return say(words.status.cancelled);
    const { opened, ready } = found;
    const { label, created } = opened.case;
    await putCase(ready.doc, { label, created, readOnly: opened.readOnly });
    batch(() => {
      noteOpened({ name, case: opened.case, of: ready.of, notes: opened.notes, unreadable: ready.unreadable, leftOut: ready.leftOut, readOnly: opened.readOnly });
      showMode(ready.doc.photo ? 'reading' : 'plan');
      side.value = 'sheet';
    });
    say(t.opened(label || name));
    // The strip that says so stands beside a photo, and here is none.
    const missing = [...ready.unreadable.map((u) => t.unreadable(u.name, u.why)), ...ready.leftOut.map((l) => `${t.leftOut[l.part]} ${l.why}`)];
    if (!ready.doc.photo && missing.length) problem.value = { title: t.title, text: missing.join(' '), advice: '' };
  } catch (error) {
    report(t.openFailed(name), error, t.openAdvice);
  }
}
