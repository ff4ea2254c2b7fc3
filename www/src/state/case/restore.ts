/** The start: the last case is on the desk again, unless something else is, or another window has it. */
import { effect } from '@preact/signals';
import { caseDesk } from '../../engine/case_instance';
import { words } from '../../words';
import '../../words/later';
import { amend, doc } from '../desk';
import { keptStains, takeStains, type KeptStains } from '../stains/kept';
import { problem, say } from '../status';
import { notice, shownLabel, type Notice } from './at_hand';
import { putOnDesk, readCase } from './current';
import { startKeeper } from './keeper';
import { isBare } from './kept_doc';
import { headFrom } from './heads';
import { cases, tidy, watchOthers } from './list';
import { hold } from './locks';
import { caseHere, modeBefore, note, noteMode } from './pointers';
import { mode, showMode } from '../ui';
import { within } from './store';

/** The page before this one in the same window may be just letting go of it. */
const RELOAD_MS = 1500;

interface Remembered {
  last: { case: string | null; at: number };
  stains: KeptStains | null;
}

/** A damaged record is none. */
const lastFrom = (value: unknown): Remembered['last'] => {
  const { case: id, at } = (value ?? {}) as Record<string, unknown>;
  return { case: typeof id === 'string' ? id : null, at: typeof at === 'number' ? at : 0 };
};
const stainsAtFrom = (value: unknown): KeptStains | null => {
  const { at, text } = (value ?? {}) as Record<string, unknown>;
  return typeof at === 'number' && typeof text === 'string' ? { at, text } : null;
};

async function remembered(): Promise<Remembered | null> {
  try {
    const [last, stains] = await within('readonly', (tx) => Promise.all(['last', 'stains'].map((key) => tx.objectStore('desk').get(key))));
    return { last: lastFrom(last?.value), stains: stainsAtFrom(stains?.value) };
  } catch {
    // Said when there is something to keep.
    return null;
  }
}

/** It is not opened again by itself, and the start says so. */
async function tellWaiting(kind: Notice['kind'], id: string): Promise<void> {
  const head = headFrom(await within('readonly', (tx) => tx.objectStore('cases').get(id)));
  if (head && !head.deleted && !head.empty) notice.value = { kind, id, name: shownLabel(head) };
}

async function bringBack(id: string, mine: boolean): Promise<void> {
  if (!isBare(doc.peek())) return tellWaiting('waiting', id);
  const release = await hold(id, mine ? RELOAD_MS : 0);
  if (!release) return tellWaiting('elsewhere', id);
  const found = await readCase(id);
  if (typeof found !== 'string' && isBare(doc.peek())) {
    const before = modeBefore();
    putOnDesk(found, release);
    if (doc.peek().photo && before && before !== 'reading') showMode(before);
    if (!found.head.empty) say(words.cases.openAgain(shownLabel(found.head)));
    return;
  }
  release();
  if (typeof found !== 'string') return tellWaiting('waiting', id);
  if (found === 'damaged') problem.value = { title: words.cases.damagedTitle, text: words.cases.damagedText, advice: words.cases.damagedAdvice };
}

async function begin(): Promise<void> {
  const kept = await remembered();
  try {
    if (kept) {
      const { last, stains } = kept;
      const local = keptStains()?.at ?? 0;
      const { work } = doc.peek().stains;
      // A work that was put there while nothing could be kept in the database, or by a version without one.
      const newWork = work !== null && (local > last.at || last.at === 0);
      if (work && !newWork) amend((d) => ({ ...d, stains: { ...d.stains, work: d.stains.work === work ? null : d.stains.work } }));
      try {
        if (stains) takeStains(stains);
      } catch {
        // Damaged: those of the browser's other storage stand.
      }
      // What is begun before the last case is there is kept too.
      startKeeper(stains?.at ?? 0);
      const here = caseHere();
      const id = here ?? last.case;
      if (id) await bringBack(id, here !== null);
      await cases.refresh();
    } else startKeeper(0);
  } catch {
    // The desk is empty then; what is kept stays kept, and is tried again from the list.
  }
  watchOthers();
  effect(() => noteMode(mode.value));
  // What frees photos is here before the first one is opened: later the page asks its server for nothing.
  (globalThis.requestIdleCallback ?? setTimeout)(() => caseDesk.begin());
  if (!kept) return;
  note(kept.last.case);
  void tidy().catch(() => {});
}

let begun: Promise<void> | null = null;

/** Once. It is done when the desk is as it was left. */
export const startCases = (): Promise<void> => (begun ??= begin());
