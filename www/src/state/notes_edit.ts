/** Notes on the photo that is looked at: what the user does with them, each a step of undo. */
import { computed, signal } from '@preact/signals';
import type { Point } from '../engine/types';
import { photoFromStage } from '../stage/geometry';
import { words } from '../words';
import { change, doc, photo, scene } from './desk';
import { setDepth } from './depths';
import { MAX_NOTES, whereIs, withNote, withNoteAt, withNoteText, withoutNote, type Size } from './notes_model';
import { say } from './status';
import { hold } from './steps';
import { mode, showMode, side, stageSize, view } from './ui';

export const notes = computed(() => doc.value.notes);

/** The next tap on the photo pins a note there. */
export const pinning = signal(false);

const chosen = signal<string | null>(null);
/** The note whose pin is marked; none when undo took it away. */
export const chosenNote = computed(() => notes.value.find((n) => n.id === chosen.value)?.id ?? null);
export const chooseNote = (id: string | null): void => void (chosen.value = id);

const size = (): Size | null => photo.value?.info ?? null;
const numberOf = (id: string): number => notes.value.findIndex((n) => n.id === id) + 1;

export function whereText(at: Point): string {
  const t = words.notes.where;
  const photoSize = size();
  if (!photoSize) return '';
  const where = whereIs(scene.value, at, photoSize);
  const name = (key: Parameters<typeof words.names.shape>[1]) => words.names.shape(scene.value, key);
  if ('on' in where) return where.zone ? t.onThird(name(where.on), words.names.zone[where.zone]) : t.on(name(where.on));
  return 'beside' in where ? t.beside(name(where.beside)) : t.of(t.parts[3 * where.row + where.column]!);
}

/** Asks for the place of a new note. */
export function startPinning(): void {
  if (notes.value.length >= MAX_NOTES) return say(words.notes.full(MAX_NOTES));
  hold('look');
  side.value = 'photo';
  pinning.value = true;
  setDepth('notes', true);
  say(words.notes.tap);
}

export const stopPinning = (): void => void (pinning.value = false);

/** Where notes are listed; on a phone the photo gives way to it. */
export function openText(id: string): void {
  chosen.value = id;
  setDepth('notes', true);
  showMode(mode.value === 'photos' ? 'photos' : 'reading');
}

/** Gives the new note's id. */
export function pinNote(at: Point): string | null {
  pinning.value = false;
  const photoSize = size();
  const next = photoSize && withNote(notes.value, at, photoSize);
  if (!next) return null;
  change(words.notes.edits.add, { notes: next.notes });
  chosen.value = next.id;
  say(words.notes.added(next.notes.length, whereText(next.notes.at(-1)!.at)));
  return next.id;
}

/** For those who do not tap: the pin is moved from there. */
export const pinInMiddle = (): string | null => pinNote(photoFromStage(view.value, [stageSize.value.width / 2, stageSize.value.height / 2]));

export function moveNote(id: string, at: Point, run: string): void {
  const photoSize = size();
  if (photoSize) change(words.notes.edits.move, { notes: withNoteAt(notes.value, id, at, photoSize) }, run);
}

export function sayPlace(id: string): void {
  const note = notes.value.find((n) => n.id === id);
  if (note) say(words.notes.moved(numberOf(id), whereText(note.at)));
}

export const writeNote = (id: string, text: string): void => change(words.notes.edits.text, { notes: withNoteText(notes.value, id, text) }, `text of ${id}`);

export function removeNote(id: string): void {
  const n = numberOf(id);
  if (n === 0) return;
  change(words.notes.edits.remove, { notes: withoutNote(notes.value, id) });
  say(words.status.removed(words.notes.note(n)));
}
