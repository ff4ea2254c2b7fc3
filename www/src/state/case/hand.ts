/** What this window knows of the case that it has in hand. */
import { doc } from '../desk';
import type { Doc } from '../doc';
import { workKept } from '../stains/kept';
import { current, newId, type CurrentCase } from './at_hand';
import { touch } from './due';
import { isBare } from './kept_doc';
import { noteHere } from './pointers';
import { safe } from './safe';

export const hand = {
  /** Counts the writings. */
  revision: 0,
  /** When the user's stains were written last (ms). */
  stainsAt: 0,
  /** Lets go of its lock. */
  release: null as (() => void) | null,
  /** As it was written last. */
  written: null as { doc: Doc; label: string } | null,
  /** Counts what came after a writing was begun and belongs to it. */
  came: 0,
  /** The desk was emptied: the case is as it was before, among the deleted ones. */
  away: false,
};

export interface Known {
  readonly revision: number;
  readonly release: (() => void) | null;
  /** As it is in the database; `null` when it is not. */
  readonly doc: Doc | null;
}

/** What is on the desk is this case from now on. */
export function takeInHand(next: CurrentCase | null, { revision, release, doc }: Known): void {
  if (hand.release !== release) hand.release?.();
  Object.assign(hand, { release, revision, away: false, written: doc && next ? { doc, label: next.label } : null });
  current.value = next;
  noteHere(next?.id ?? null);
  workKept.value = doc !== null;
  safe.value = doc && { doc, without: new Set() };
}

/** Now, but never before it was created, should the clock have been set back. */
export const changedNow = ({ created }: Pick<CurrentCase, 'created'>): string => {
  const now = new Date().toISOString();
  return now < created ? created : now;
};

export function fresh(): CurrentCase {
  const at = new Date().toISOString();
  return { id: newId(), label: '', created: at, changed: at };
}

export const isWritten = (): boolean => hand.written?.doc === doc.peek() && hand.written.label === (current.peek()?.label ?? '');

/** The desk was emptied of the case: there is nothing that may be written over it. */
export const isEmptied = (): boolean => current.peek() !== null && isBare(doc.peek()) && (hand.away || (hand.written !== null && !isBare(hand.written.doc)));

/** A picture came; the document is the same. */
export function touchAgain(): void {
  hand.came++;
  hand.written = null;
  touch();
}
