/** Tab against tab in the photo that is looked at, as read and by the guide. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { desk } from '../../engine/instance';
import { guide } from '../desk';
import { latestOnly } from '../latest';
import { describe } from '../problems';
import { reading } from '../reading';
import { asked, tabPairs, tabRows, type TabPair, type TabRow } from './tabs_check_model';

/** The pairs that can be checked. */
export const pairs = computed<TabPair[]>(() => {
  const [report, known] = [reading.value?.report, guide.value];
  return report && known ? tabPairs(report.scene, report, known) : [];
});

const made = signal<{ key: string; rows: readonly TabRow[] }>({ key: '', rows: [] });
export const checkProblem = signal<string | null>(null);
const keyOf = (of: readonly TabPair[]): string => JSON.stringify(of);

/** The worst first; `null` until they are compared. */
export const rows = computed<readonly TabRow[] | null>(() => (made.value.key === keyOf(pairs.value) ? made.value.rows : null));

const compare = latestOnly<TabPair[]>(async (of) => {
  try {
    made.value = { key: keyOf(of), rows: tabRows(of, await desk.differences(asked(of))) };
    checkProblem.value = null;
  } catch (error) {
    checkProblem.value = describe(error).text;
  }
});

export function startTabsCheck(): () => void {
  return effect(() => {
    const now = pairs.value;
    if (now.length > 0 && made.peek().key !== keyOf(now)) untracked(() => compare(now));
  });
}
