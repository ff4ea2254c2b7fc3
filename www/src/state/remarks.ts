/** Short remarks that are seen as well as read out: one above the photo, one in the selection bar. */
import { computed, signal } from '@preact/signals';
import type { Scene } from '../engine/types';
import { scene } from './desk';
import type { ShapeKey } from './shapes';
import { say } from './status';

const guide = signal<{ text: string; before: Scene | null }>({ text: '', before: null });

/** Beside the steps: what was found, or that a place shows nothing. Gone when what it tells of is undone. */
export const guideNote = computed(() => (guide.value.before === scene.value ? '' : guide.value.text));

/** In the selection bar, about one shape, until the scene is another one. */
const barNote = signal<{ key: ShapeKey; text: string; scene: Scene } | null>(null);

export function barNoteOn(key: ShapeKey): string {
  const note = barNote.value;
  return note?.key === key && note.scene === scene.value ? note.text : '';
}

/** `before`: the scene without what is told of. */
export function noteGuide(text: string, before: Scene | null = null): void {
  guide.value = { text, before };
  if (text) say(text);
}

export function noteBar(key: ShapeKey, text: string): void {
  barNote.value = { key, text, scene: scene.value };
  say(text);
}
