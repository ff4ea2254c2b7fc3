/**
 * Which names stand on the photo. With many outlines only those that matter are written out; the
 * other teeth bear their letter, where there is room. Pure.
 */
import type { Doc } from '../state/doc';
import { pendingRestoration, targetOf } from '../state/roles';
import { boundsOf, regionById, regionIdOf, shapesOf, type ShapeKey } from '../state/shapes';
import { words } from '../words';

/** Up to so many regions every name is written out. */
const FEW = 6;
/** A tooth less wide than this on the stage has no room for its letter. */
const LETTER_PX = 26;

export interface PhotoName {
  key: ShapeKey;
  text: string;
  small: boolean;
}

export function photoNames(doc: Doc, selected: ShapeKey | null, asked: string | null, k: number): PhotoName[] {
  const { scene } = doc;
  const proposed = pendingRestoration(doc)?.id;
  const target = targetOf(doc);
  const few = scene.regions.length <= FEW;
  return shapesOf(scene).flatMap(({ key, outline }): PhotoName[] => {
    const id = regionIdOf(key);
    if (key === selected) return [];
    const region = regionById(scene, id);
    const full = { key, text: words.names.short(scene, key), small: false };
    if (!region) return [full];
    if (id === proposed) return [{ ...full, text: words.found.askShort }];
    if (region.name || region.kind !== 'tooth' || few || id === target || id === asked) return [full];
    const { left, right } = boundsOf(outline);
    return (right - left) * k >= LETTER_PX ? [{ key, text: words.names.own(scene, region.id), small: true }] : [];
  });
}
