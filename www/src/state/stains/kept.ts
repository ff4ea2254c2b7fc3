/** Stains, swatches and the job at hand, kept on this device between visits. Settings and the word for the patient are kept beside them; photos are not. */
import { effect } from '@preact/signals';
import { words } from '../../words';
import { change, doc, startWith } from '../desk';
import { array, record } from '../scene_file';
import { problem } from '../status';
import { bookFrom } from './book_file';
import { EMPTY_STAINS, USUAL_LIMITS, type StainsDoc } from './stains_doc';

const KEY = 'tabside.stains.1';
/** What could not be read is never overwritten. */
const ASIDE = `${KEY}.aside`;

type Store = Pick<Storage, 'getItem' | 'setItem'>;

/** Throws when it is nothing that was kept here. What is not kept is as at the beginning. */
export function stainsFrom(text: string): StainsDoc {
  const { own, demo, draft, limits, typed, work, practice } = record(JSON.parse(text), 'stains');
  const kept = <T>(value: unknown, ...lists: string[]): T | null => {
    if (value == null) return null;
    const found = record(value, 'stains');
    for (const list of lists) array(found[list], 1000, list);
    return found as T;
  };
  const job = kept<NonNullable<StainsDoc['work']>>(work, 'zones', 'ticks', 'passes');
  if (job) for (const list of ['zones', 'steps', 'shortfalls', 'cautions']) array(record(job.plan, 'plan')[list], 1000, list);
  return {
    own: bookFrom(own),
    demo: demo == null ? null : bookFrom(demo),
    draft: kept(draft, 'base', 'after'),
    limits: { ...USUAL_LIMITS, ...kept(limits, 'stains') },
    typed: kept(typed),
    work: job,
    practice: kept(practice),
  };
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
  let told = false;
  const failed = () => {
    if (!told) problem.value = { title: words.errors.keptFailed, text: '', advice: words.errors.keptAdvice };
    told = true;
  };
  try {
    startWith({ stains: (last = fromStore(localStorage)) });
  } catch {
    failed();
  }
  const elsewhere = ({ key, newValue }: StorageEvent) => {
    if (key !== KEY || newValue === null) return;
    try {
      change(words.swatches.edits.elsewhere, { stains: (last = stainsFrom(newValue)) });
    } catch {
      // The other window wrote something newer than this page understands.
    }
  };
  window.addEventListener('storage', elsewhere);
  const stop = effect(() => {
    const { stains } = doc.value;
    if (stains === last) return;
    last = stains;
    try {
      localStorage.setItem(KEY, JSON.stringify(stains));
    } catch {
      failed();
    }
  });
  return () => {
    stop();
    window.removeEventListener('storage', elsewhere);
  };
}
