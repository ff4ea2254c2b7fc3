/**
 * The user's stains, swatches and practice, kept in the browser's own storage between visits. Cases lie in
 * the database (`state/case`), the work among them; where there is none, the work is kept here.
 */
import { effect, signal } from '@preact/signals';
import { words } from '../../words';
import { amend, change, doc, startWith } from '../desk';
import { array, record } from '../scene_file';
import { problem } from '../status';
import { bookFrom } from './book_file';
import { EMPTY_STAINS, USUAL_LIMITS, type StainsDoc } from './stains_doc';

const KEY = 'tabside.stains.1';
/** What could not be read is never overwritten. */
const ASIDE = `${KEY}.aside`;

type Store = Pick<Storage, 'getItem' | 'setItem'>;

/** The work is safe with its case; until then it is kept here. */
export const workKept = signal(false);

/** As it was kept here last, and when (ms): browsers write it to the disk some seconds later, the database at once. */
export interface KeptStains {
  readonly at: number;
  readonly text: string;
}
let newest: KeptStains | null = null;
export const keptStains = (): KeptStains | null => newest;

/** Throws when it is nothing that was kept here. What is not kept is as at the beginning. */
export function stainsFrom(text: string): StainsDoc {
  const { own, lent, demo, draft, limits, typed, work, practice } = record(JSON.parse(text), 'stains');
  return {
    own: bookFrom(own),
    // `demo` is what it was called before books came with cases.
    lent: lent == null && demo == null ? null : bookFrom(lent ?? demo),
    draft: kept(draft, 'base', 'after'),
    limits: { ...USUAL_LIMITS, ...kept(limits, 'stains') },
    typed: kept(typed),
    work: workFrom(work),
    practice: kept(practice),
  };
}

function kept<T>(value: unknown, ...lists: string[]): T | null {
  if (value == null) return null;
  const found = record(value, 'stains');
  for (const list of lists) array(found[list], 1000, list);
  return found as T;
}

/** A work that the page kept itself. */
export function workFrom(value: unknown): StainsDoc['work'] {
  const job = kept<NonNullable<StainsDoc['work']>>(value, 'zones', 'ticks', 'passes');
  if (job) for (const list of ['zones', 'steps', 'shortfalls', 'cautions']) array(record(job.plan, 'plan')[list], 1000, list);
  return job;
}

const timeOf = (text: string | null): number => {
  try {
    const { at } = record(JSON.parse(text ?? ''), 'stains');
    return typeof at === 'number' ? at : 0;
  } catch {
    return 0;
  }
};

/** The same from the database, should it be newer: what the page kept last before it was ended hard. */
export function takeStains({ at, text }: KeptStains): void {
  if (at <= (newest?.at ?? 0)) return;
  const { own, draft, practice, limits, lent } = stainsFrom(text);
  newest = { at, text };
  amend((d) => ({ ...d, stains: { ...d.stains, own, draft, practice, limits, lent } }));
}

/** What was kept, or the beginning. */
export function fromStore(store: Store): StainsDoc {
  const text = store.getItem(KEY);
  if (text === null) return EMPTY_STAINS;
  try {
    return stainsFrom(text);
  } catch {
    if (store.getItem(ASIDE) === null) store.setItem(ASIDE, text);
    problem.value = { title: words.errors.keptDamaged, text: '', advice: '' };
    return EMPTY_STAINS;
  }
}

/** Starts with what was kept, and keeps what changes; in another window of the page too. */
export function startKeeping(): () => void {
  let last: StainsDoc = EMPTY_STAINS;
  let lastText = '';
  let alone = workKept.peek();
  let told = false;
  const failed = () => {
    if (!told) problem.value = { title: words.errors.keptFailed, text: '', advice: words.errors.keptAdvice };
    told = true;
  };
  try {
    startWith({ stains: (last = fromStore(localStorage)) });
    const text = localStorage.getItem(KEY);
    if (text !== null) newest = { at: timeOf(text), text };
    lastText = JSON.stringify(last);
  } catch {
    failed();
  }
  const elsewhere = ({ key, newValue }: StorageEvent) => {
    if (key !== KEY || newValue === null) return;
    try {
      // The work is each window's own, and what it is planned with.
      const { own, draft, practice } = stainsFrom(newValue);
      const { stains } = doc.peek();
      const same = JSON.stringify([own, draft, practice]) === JSON.stringify([stains.own, stains.draft, stains.practice]);
      if (!same) change(words.swatches.edits.elsewhere, { stains: (last = { ...stains, own, draft, practice }) });
    } catch {
      // The other window wrote something newer than this page understands.
    }
  };
  window.addEventListener('storage', elsewhere);
  const stop = effect(() => {
    const { stains } = doc.value;
    if (stains === last && alone === workKept.value) return;
    [last, alone] = [stains, workKept.value];
    const mine = alone ? { ...stains, work: null, typed: null } : stains;
    const text = JSON.stringify(mine);
    if (text === lastText) return;
    lastText = text;
    // What is kept later is newer, also after the device's clock was set back.
    const at = Math.max(Date.now(), (newest?.at ?? 0) + 1);
    newest = { at, text: JSON.stringify({ at, ...mine }) };
    try {
      localStorage.setItem(KEY, newest.text);
    } catch {
      failed();
    }
  });
  return () => {
    stop();
    window.removeEventListener('storage', elsewhere);
  };
}
