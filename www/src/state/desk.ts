/** The page's document with undo, as signals, and the one way to change it. */
import { batch, computed, signal } from '@preact/signals';
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import type { Guide, Scene } from '../engine/types';
import { EMPTY_DOC, type Doc, type Laid } from './doc';
import { inPlace, mapped, push, reachable, redo, seal, startHistory, undo, type History } from './history';
import { say } from './status';
import { words } from '../words';

/** Files of photos that are open or that undo may bring back. Decoded are few of them (see `Held`). */
const MAX_FILES = 120;

const history = signal<History<Doc>>(startHistory(EMPTY_DOC));

export const doc = computed(() => history.value.present.value);
export const photo = computed(() => doc.value.photo);
export const scene = computed(() => doc.value.scene);
/** The guide that comes with the program, once it runs. */
export const defaultGuide = signal<Guide | null>(null);
export const guide = computed(() => doc.value.guide ?? defaultGuide.value);
export const undoLabel = computed(() => (history.value.past.length ? history.value.present.label : null));
export const redoLabel = computed(() => history.value.future[0]?.label ?? null);

export function change(label: string, next: Partial<Doc>, mergeKey: string | null = null): void {
  set(push(history.value, { ...doc.value, ...next }, label, mergeKey));
}

/** Before anything was done: where the page begins. It is no step of undo. */
export function startWith(next: Partial<Doc>): void {
  history.value = startHistory({ ...doc.value, ...next });
}

/** Another case lies on the desk: undo does not lead back to the one before. */
export function putDesk(next: Doc): void {
  set(startHistory(next));
}

/** What is only looked at otherwise: no step of undo. */
export function lookAt(next: Partial<Doc>): void {
  set(inPlace(history.value, { ...doc.value, ...next }));
}

/** What is found out about a photo, wherever it is in the past and the future: no step of undo. */
export function amend(as: (doc: Doc) => Doc): void {
  set(mapped(history.value, as));
}

export function changeScene(label: string, edit: (scene: Scene) => Scene, mergeKey: string | null = null): void {
  const next = edit(scene.value);
  if (next !== scene.value) change(label, { scene: next }, mergeKey);
}

export function endRun(): void {
  history.value = seal(history.value);
}

export function undoStep(): void {
  if (undoLabel.value === null) return;
  say(words.status.undone(undoLabel.value));
  set(undo(history.value));
}

export function redoStep(): void {
  if (redoLabel.value === null) return;
  say(words.status.redone(redoLabel.value));
  set(redo(history.value));
}

function set(next: History<Doc>): void {
  const before = photosOf(history.value);
  batch(() => {
    history.value = boundPhotos(next);
  });
  const after = new Set(photosOf(history.value));
  before.filter((p) => !after.has(p)).forEach((p) => desk.close(p));
}

/** A laid photo is in many steps, mostly in one and the same tray. */
function photosOf(h: History<Doc>): OpenPhoto[] {
  const docs: readonly (Doc | Laid)[] = reachable(h);
  const laid = [...new Set(reachable(h).map((d) => d.tray))].flat();
  return [...new Set([...docs, ...laid].flatMap(({ photo, polarised }) => [photo, polarised]))].filter((p) => p !== null);
}

/** Forgets the oldest steps until few enough files are held. */
function boundPhotos(h: History<Doc>): History<Doc> {
  let next = h;
  while (next.past.length && photosOf(next).length > MAX_FILES) next = { ...next, past: next.past.slice(1) };
  return next;
}
