/** How the page is looked at: tool, selection, view. None of it is undone. */
import { computed, effect, signal } from '@preact/signals';
import type { Zone } from '../engine/types';
import { scene } from './desk';
import { shapeOf, type ShapeKey } from './shapes';

/** What a tap on the photo does. */
export type Tool = 'look' | 'card' | 'step' | 'second' | 'tab' | 'tooth' | 'restoration';

/** The tools that outline a card or a part of one: by a tap or by a box. */
const CARD_TOOLS = ['card', 'step', 'second'] as const satisfies Tool[];
export type CardTool = (typeof CARD_TOOLS)[number];
export const ofCard = (held: Tool): held is CardTool => (CARD_TOOLS as readonly Tool[]).includes(held);

export const tool = signal<Tool>('look');

const wanted = signal<ShapeKey | null>(null);
/** The selected shape; none when undo took it away. */
export const selected = computed(() => shapeOf(scene.value, wanted.value)?.key ?? null);
/** The outline point with the handle that keys move. */
export const selectedPoint = signal<number | null>(null);

export function select(key: ShapeKey | null): void {
  if (key !== wanted.peek()) selectedPoint.value = null;
  wanted.value = key;
}

// A point that undo took away is not selected.
effect(() => {
  const points = shapeOf(scene.value, selected.value)?.outline.length ?? 0;
  const at = selectedPoint.peek();
  if (at !== null && at >= points) selectedPoint.value = null;
});

/** Outlines are hidden while a key or button is held. */
export const outlinesHidden = signal(false);

/** Photo → stage: stage = photo · k + (x, y), in CSS pixels. */
export const view = signal({ k: 1, x: 0, y: 0 });
export const stageSize = signal({ width: 0, height: 0 });

/** On a phone one of the two is shown. */
export type Side = 'photo' | 'sheet';
export const side = signal<Side>('photo');

/** What the side beside the photo is about; without a photo the first is the start. */
export const MODES = ['reading', 'photos', 'plan', 'swatches', 'practice'] as const;
export type Mode = (typeof MODES)[number];
export const mode = signal<Mode>('reading');

/** A window where photo and sheet take turns; the same width stands in the styles. */
const narrowMatch = typeof matchMedia === 'function' ? matchMedia('(max-width: 640px)') : null;
export const narrow = signal(narrowMatch?.matches ?? false);
narrowMatch?.addEventListener('change', ({ matches }) => (narrow.value = matches));

/** Shows one of them, on a phone too. */
export function showMode(next: Mode): void {
  mode.value = next;
  side.value = 'sheet';
}

/** The zone whose tabs are listed. */
export const ladderZone = signal<Zone>('middle');

/** The tab name that the next tapped tab gets, when the user chose one. */
export const chosenTabName = signal<string | null>(null);

/** Regions chosen for the sheet; the nearest ones otherwise. */
export const chosenRestoration = signal<string | null>(null);
export const chosenTab = signal<string | null>(null);
export const ladderOf = signal<string | null>(null);

/** With a pair: the plain photo alone, the cross-polarised one laid over it, or where glare is. */
export const PAIR_VIEWS = ['plain', 'polarised', 'glare'] as const;
export type PairView = (typeof PAIR_VIEWS)[number];
export const pairView = signal<PairView>('plain');

/** The cross-polarised photo is being laid over by hand. */
export const adjusting = signal(false);
