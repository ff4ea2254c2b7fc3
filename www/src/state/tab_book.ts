/** The open draft of the user's own tabs: filled, checked, taken into use, saved. */
import { signal } from '@preact/signals';
import { desk } from '../engine/instance';
import type { Guide } from '../engine/types';
import { words } from '../words';
import { change, doc, guide } from './desk';
import { draftOf, emptied, emptyTab, faultsOf, guideOf, RANGES, type Draft, type Fault } from './own_tabs';
import { report } from './problems';
import { say } from './status';
import { typedNumber } from './typed_number';

export const draft = signal<Draft | null>(null);
/** What kept the draft from being used, when that was tried. */
export const faults = signal<readonly Fault[]>([]);

export function edit(next: Draft): void {
  draft.value = next;
  // Once something was found wrong it is followed until it is right.
  if (faults.value.length > 0) faults.value = faultsOf(next);
}

/** From the guide in use; its name only when the tabs are the user's own already. */
export function fillFromGuide(): void {
  const used = guide.value;
  faults.value = [];
  if (used) draft.value = draftOf(used, used.source === 'measured' ? used.name : words.tabs.mine);
}

export function emptyAll(): void {
  faults.value = [];
  if (draft.value) draft.value = emptied(draft.value);
}

export const addTab = (): void => edit({ name: words.tabs.mine, ...draft.value, tabs: [...(draft.value?.tabs ?? []), emptyTab()] });

/** Words for what is wrong. */
export function faultText(fault: Fault, { tabs }: Draft): string {
  const t = words.tabs.faults;
  if (fault.code === 'none') return t.none;
  const name = tabs[fault.row]?.name.trim() || String(fault.row + 1);
  if (fault.code === 'nameless') return t.nameless(fault.row + 1);
  if (fault.code !== 'range') return t[fault.code](name);
  const { name: axis, min, max } = RANGES[fault.axis]!;
  return t.range(name, words.tabs.row[fault.zone], axis, typedNumber(min), typedNumber(max));
}

/** The guide that the draft makes, or `null` with the faults on show. */
export function checkedGuide(): Guide | null {
  const now = draft.value;
  if (!now) return null;
  faults.value = faultsOf(now);
  return faults.value.length === 0 ? guideOf({ ...now, name: now.name.trim() || words.tabs.mine }, words.tabs.note) : null;
}

export async function takeDraft(): Promise<void> {
  const own = checkedGuide();
  if (!own) return;
  try {
    const taken = await desk.checkGuide(own);
    change(words.edits.ownTabs, { guide: taken });
    say(words.status.guideLoaded(taken.name, taken.tabs.length));
  } catch (error) {
    report(words.errors.guideFailed(own.name), error);
  }
}

/** The measured guide in use, when there is one. */
export const ownInUse = () => (doc.value.guide?.source === 'measured' ? doc.value.guide : null);
