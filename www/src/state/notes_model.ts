/** Notes pinned to places of a photo: adding, moving, writing, and where a place is, in words. Pure. */
import type { Point, Scene, Zone } from '../engine/types';
import { bordersOf } from './borders';
import type { PhotoNote } from './doc';
import { distanceTo, regionById, regionIdOf, shapeAt, shapesOf, type ShapeKey } from './shapes';

export const MAX_NOTES = 40;
export const MAX_NOTE_TEXT = 200;

export interface Size {
  readonly width: number;
  readonly height: number;
}

type Notes = readonly PhotoNote[];

const within = (value: number, end: number): number => Math.round(Math.min(Math.max(value, 0), end - 1) * 10) / 10;

/** Inside the photo, to a tenth of a pixel. */
export const inPhoto = ([x, y]: Point, { width, height }: Size): Point => [within(x, width), within(y, height)];

/** `null` when there are enough. */
export function withNote(notes: Notes, at: Point, size: Size): { notes: Notes; id: string } | null {
  if (notes.length >= MAX_NOTES) return null;
  const taken = new Set(notes.map((n) => n.id));
  let n = 1;
  while (taken.has(`note-${n}`)) n++;
  return { notes: [...notes, { id: `note-${n}`, at: inPhoto(at, size), text: '' }], id: `note-${n}` };
}

const changed = (notes: Notes, id: string, next: Partial<PhotoNote>): Notes => notes.map((n) => (n.id === id ? { ...n, ...next } : n));

export const withNoteAt = (notes: Notes, id: string, at: Point, size: Size): Notes => changed(notes, id, { at: inPhoto(at, size) });

export const withNoteText = (notes: Notes, id: string, text: string): Notes => changed(notes, id, { text: text.slice(0, MAX_NOTE_TEXT) });

export const withoutNote = (notes: Notes, id: string): Notes => notes.filter((n) => n.id !== id);

/** Where a note is: on something, beside something, or a part of the photo (0–2 from the left, from the top). */
export type Where =
  | { readonly on: ShapeKey; readonly zone: Zone | null }
  | { readonly beside: ShapeKey }
  | { readonly column: number; readonly row: number };

/** As near as this, as a share of the photo's longer side, a place is beside an outline. */
const BESIDE = 0.03;

const part = (at: number, size: number): number => Math.min(2, Math.max(0, Math.floor((3 * at) / size)));

export function whereIs(scene: Scene, at: Point, { width, height }: Size): Where {
  const on = shapeAt(scene, at);
  if (on) return { on, zone: zoneAt(scene, on, at) };
  const near = shapesOf(scene)
    .map(({ key, outline }) => ({ key, away: distanceTo(outline, at) }))
    .sort((a, b) => a.away - b.away)[0];
  if (near && near.away <= BESIDE * Math.max(width, height)) return { beside: near.key };
  return { column: part(at[0], width), row: part(at[1], height) };
}

/** The third of a tooth, restoration or tab, when its axis is known. */
function zoneAt(scene: Scene, key: ShapeKey, [x, y]: Point): Zone | null {
  const region = regionById(scene, regionIdOf(key));
  if (!region?.cervical || !region.incisal) return null;
  const [cx, cy] = region.cervical;
  const [dx, dy] = [region.incisal[0] - cx, region.incisal[1] - cy];
  const along = ((x - cx) * dx + (y - cy) * dy) / (dx * dx + dy * dy || 1);
  const [first, second] = bordersOf(region);
  return along < first ? 'cervical' : along < second ? 'middle' : 'incisal';
}
