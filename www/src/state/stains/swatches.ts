/** What the user does with swatches: entering, changing, resting, removing, carrying from place to place. */
import { computed } from '@preact/signals';
import { coatsText } from '../../charts/coats_layout';
import type { Lab, StainInfo, Swatch, SwatchBook } from '../../engine/types';
import { words } from '../../words';
import { demoSwatches } from '../demo_files';
import { change } from '../desk';
import { report } from '../problems';
import { FileError } from '../scene_file';
import { problem, say } from '../status';
import { joined, MAX_NAME, nameIn, tooMany, withInfo, withName, withoutStain, withoutSwatch, withSwatch } from './book';
import { bookFromJson } from './book_file';
import { draftOf, EMPTY_DRAFT, faultsOf, keyOf, swatchOf, typedLab, type Draft, type Spot } from './draft';
import { EMPTY_BOOK, type StainsDoc } from './stains_doc';
import { stains } from './work';

/** One step of undo. */
export const changeStains = (label: string, next: Partial<StainsDoc>, mergeKey: string | null = null): void => change(label, { stains: { ...stains.value, ...next } }, mergeKey);

const edits = () => words.swatches.edits;

export const ownBook = computed(() => stains.value.own);
export const draft = computed(() => stains.value.draft);
/** Stains that are not the user's own are in use: they are looked at, not changed. */
export const lentInUse = computed(() => stains.value.lent !== null);

function putOwn(label: string, own: SwatchBook, also: Partial<StainsDoc> = {}, mergeKey: string | null = null): void {
  if (own !== stains.value.own) changeStains(label, { own, ...also }, mergeKey);
}

export const describeStain = (name: string, next: Partial<StainInfo>, mergeKey: string | null = null): void => putOwn(edits().stain(name), withInfo(ownBook.value, name, next), {}, mergeKey);

/** False when another stain has that name. */
export function renameStain(from: string, to: string): boolean {
  const name = to.trim();
  if (name.length > MAX_NAME) return false;
  const next = withName(ownBook.value, from, name);
  const done = next !== ownBook.value;
  putOwn(edits().rename(from), next);
  return done || name === from;
}

export const nameBook = (name: string): void => putOwn(edits().nameBook, { ...ownBook.value, name }, {}, 'name book');

export function removeStain(name: string): void {
  putOwn(edits().removeStain(name), withoutStain(ownBook.value, name), { draft: null });
  say(words.status.removed(name));
}

export function removeSwatch(at: number): void {
  putOwn(edits().removeSwatch, withoutSwatch(ownBook.value, at));
  say(words.status.removed(words.swatches.aSwatch));
}

/** Fired passes come back as swatches. */
export function addSwatches(label: string, more: readonly Swatch[]): number {
  const { book, added } = joined(ownBook.value, { ...EMPTY_BOOK, swatches: [...more] });
  if (added > 0) putOwn(label, book);
  return added;
}

/** One field after another of the same draft is one step of undo each. */
export const editDraft = (next: Partial<Draft>): void => changeStains(edits().draft, { draft: { ...(draft.value ?? EMPTY_DRAFT), ...next } }, `draft ${Object.keys(next).join()}`);

export const startDraft = (stain = ''): void => changeStains(edits().draft, { draft: { ...EMPTY_DRAFT, stain } });
export const dropDraft = (): void => changeStains(edits().dropDraft, { draft: null });

/** What was read from the demo's photo stays marked until its colour is typed anew. */
const ofDemo = (part: string): Spot => ({ photo: part, region: part, demo: true });

export function reviseSwatch(at: number): void {
  const found = draftOf(ownBook.value, at);
  const marked = found?.note.includes(words.swatches.demoNote) ? { baseAt: ofDemo('base'), afterAt: ofDemo('after') } : {};
  changeStains(edits().draft, { draft: found && { ...found, ...marked } });
}

/** A colour read in the photo, as base or as result. */
export function takeColour(as: 'base' | 'after', lab: Lab, doubt: number, where: string, spot?: Spot): void {
  const known = Number(draft.value?.doubt) || 0;
  editDraft({ [as]: typedLab(lab), [as === 'base' ? 'baseFrom' : 'afterFrom']: where, [as === 'base' ? 'baseAt' : 'afterAt']: spot, doubt: String(Math.max(known, Math.round(doubt * 10) / 10)) });
  say(words.swatches.taken[as](where));
}

/** Puts the draft into the book; false while something is missing. */
export function keepDraft(): boolean {
  const now = draft.value;
  if (!now || faultsOf(now).length > 0) return false;
  const swatch = swatchOf({ ...now, stain: nameIn(ownBook.value, now.stain) }, words.swatches);
  const at = ownBook.value.swatches.findIndex((s) => keyOf(s) === now.was);
  putOwn(at < 0 ? edits().add(swatch.stain ?? '') : edits().revise, withSwatch(ownBook.value, swatch, at), { draft: null });
  say(words.swatches.keptSwatch(swatch.stain ?? words.swatches.aMix, words.plan.coats(coatsText(now.coats), now.coats <= 1)));
  return true;
}

/** From a file: added to what is there; the demo's own kind stands apart from it. */
export async function openSwatches(file: Blob, name: string): Promise<void> {
  try {
    takeBook(bookFromJson(await file.text()), name);
  } catch (error) {
    report(words.errors.swatchesFailed(name), error, '', words.errors.swatchesAdvice);
  }
}

function takeBook(found: SwatchBook, name: string): void {
  problem.value = null;
  if (found.demo) {
    const full = tooMany(found);
    if (full) throw new FileError(full);
    changeStains(edits().demo, { lent: found });
    return say(words.swatches.demoTaken);
  }
  const { book, added, renamed } = joined(ownBook.value, found);
  const full = tooMany(book);
  if (full) throw new FileError(full);
  changeStains(edits().open(name), { own: book, lent: null });
  say(words.swatches.opened(name, added, found.swatches.length - added));
  // What was taken for something else is not only read out.
  if (renamed.length > 0) problem.value = { title: words.swatches.takenFor(renamed.map((n) => [n, nameIn(book, n)])), text: '', advice: words.swatches.takenForAdvice };
}

export async function takeDemo(): Promise<void> {
  try {
    takeBook({ ...bookFromJson(await demoSwatches()), demo: true }, words.demo.name);
  } catch (error) {
    report(words.errors.demoStainsFailed, error);
  }
}

export const leaveLent = (): void => changeStains(stains.value.lent?.demo ? edits().leaveDemo : edits().leaveLent, { lent: null });

/** Those that came with a case, added to the user's own. */
export const takeLent = (): void => {
  const { lent } = stains.value;
  if (lent) takeBook(lent, lent.name || words.swatches.lentName);
};

export function emptyBook(): void {
  changeStains(edits().emptyBook, { own: EMPTY_BOOK, draft: null });
  say(words.status.removed(words.swatches.aBook));
}
