/** Keeps the case on the desk: every change within a second, all of it or nothing. */
import { effect, untracked } from '@preact/signals';
import { doc } from '../desk';
import { current } from './at_hand';
import { watchDemo } from './demo_case';
import { isDue, isRunning, stopWaiting, touch, whenDue, writeDue } from './due';
import { changedNow, fresh, hand, isEmptied, isWritten, takeInHand } from './hand';
import { pieceOf, writeAtOnce } from './piece';
import { note, noteHere } from './pointers';
import { safe } from './safe';
import { isNothing, save } from './saving';
import { within } from './store';

whenDue(save);

/** Writes what is not written yet; gives whether nothing of the desk would be lost with it. */
export async function flush(): Promise<boolean> {
  await writeDue();
  const [now, kept] = [doc.peek(), safe.peek()];
  return isNothing(now) || (kept?.doc === now && kept.without.size === 0);
}

/** The page goes away: what is not written is, as far as it is ready, without waiting for anything. */
function goingAway(): void {
  const now = doc.peek();
  const none = !current.peek() && isNothing(now);
  if (!isDue() || none || isWritten() || isEmptied()) return void flush();
  const mine = current.peek() ?? fresh();
  if (!current.peek()) takeInHand(mine, { revision: 0, release: null, doc: null });
  hand.revision += isRunning() ? 2 : 1;
  writeAtOnce(pieceOf(now, { ...mine, changed: changedNow(mine) }, { revision: hand.revision, stainsAt: hand.stainsAt, again: () => {} }));
}

/** Which case is on the desk from now on, should the page be ended before anything is done to it. */
export async function writeLast(id: string | null): Promise<void> {
  note(id);
  await within('readwrite', (tx) => tx.objectStore('desk').put({ key: 'last', value: { case: id, at: Date.now() } })).catch(() => {});
}

/** As it is, and not opened by itself at the next start. */
export async function leaveAside(): Promise<void> {
  await flush().catch(() => false);
  noteHere(null);
  await writeLast(null);
}

export function startKeeper(stainsAt: number): () => void {
  hand.stainsAt = stainsAt;
  const hidden = () => document.visibilityState === 'hidden' && void flush();
  document.addEventListener('visibilitychange', hidden);
  window.addEventListener('pagehide', goingAway);
  // Put to sleep by the browser, which may end it so.
  document.addEventListener('freeze', goingAway);
  const stops = [
    watchDemo(),
    effect(() => {
      void doc.value;
      void current.value?.label;
      if (!isWritten()) untracked(touch);
    }),
  ];
  return () => {
    stops.forEach((stop) => stop());
    stopWaiting();
    document.removeEventListener('visibilitychange', hidden);
    window.removeEventListener('pagehide', goingAway);
    document.removeEventListener('freeze', goingAway);
  };
}
