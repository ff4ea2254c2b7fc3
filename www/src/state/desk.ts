/** The page's document with undo, as signals, and the one way to change it. */
import { batch, computed, signal } from '@preact/signals';
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import type { Guide, Scene } from '../engine/types';
import { EMPTY_DOC, type Doc } from './doc';
import { push, reachable, redo, seal, startHistory, undo, type History } from './history';
import { say } from './status';
import { words } from '../words';

/** Photos that undo may bring back; more would fill the memory. */
const MAX_PHOTOS = 2;

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

const photosIn = ({ photo, polarised }: Doc): OpenPhoto[] => [photo, polarised].filter((p) => p !== null);
const photosOf = (h: History<Doc>): OpenPhoto[] => [...new Set(reachable(h).flatMap(photosIn))];

/** Forgets the oldest steps until few enough plain photos are held. */
function boundPhotos(h: History<Doc>): History<Doc> {
  let past = h.past;
  const count = () => new Set(reachable({ ...h, past }).map((d) => d.photo).filter(Boolean)).size;
  while (past.length && count() > MAX_PHOTOS) past = past.slice(1);
  return { ...h, past };
}
