/** How much the browser keeps for this page, how much more it would, and whether it promised to keep it. */
import { signal } from '@preact/signals';
import { words } from '../../words';
import { megabytes } from './sizes';
import { problem } from '../status';

export interface Space {
  readonly used: number;
  readonly left: number;
  /** The browser promised not to clear it by itself; `null` when it cannot promise. */
  readonly promised: boolean | null;
}

export const space = signal<Space | null>(null);

/** Room for some ten photos. */
const SHORT_BYTES = 100e6;
export const isShort = ({ left }: Space): boolean => left < SHORT_BYTES;

export async function lookAtSpace(): Promise<Space | null> {
  try {
    // By http from another machine there is none to ask.
    const { usage = 0, quota = 0 } = await navigator.storage.estimate();
    const promised = navigator.storage.persisted ? await navigator.storage.persisted() : null;
    return (space.value = { used: usage, left: Math.max(0, quota - usage), promised });
  } catch {
    return (space.value = null);
  }
}

/** Gives whether the browser promised. Some ask the user first, some decide by themselves. */
export async function askToKeep(): Promise<boolean> {
  const promised = await navigator.storage.persist().catch(() => false);
  await lookAtSpace();
  return promised;
}

let told = false;

/** Tells once that space is running short. */
export async function spaceShort(): Promise<void> {
  const found = await lookAtSpace();
  if (!found || !isShort(found) || told) return;
  told = true;
  problem.value = { title: words.cases.shortTitle(megabytes(found.left)), text: words.cases.shortText, advice: words.cases.shortAdvice };
}
