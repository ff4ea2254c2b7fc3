/** The photo that is looked at and those on the tray, as one list; and what changes when one is laid, shown or taken off. Pure. */
import type { OpenPhoto } from '../../engine/desk';
import type { Scene } from '../../engine/types';
import { UNTOUCHED, type Doc, type Laid } from '../doc';

/** Photos that are open at a time. */
export const MAX_PHOTOS = 60;

/** What is looked at, as it would lie on the tray. */
export function lookedAt({ photo, polarised, scene, target, proposal, notes }: Doc): Laid | null {
  return photo && { photo, polarised, scene, target, proposal, notes };
}

const ifAny = (laid: Laid | null): Laid[] => (laid ? [laid] : []);

/** Every open photo in the order in which they were opened, whichever is looked at. */
export const openPhotos = (doc: Doc): Laid[] => [...ifAny(lookedAt(doc)), ...doc.tray].sort((a, b) => a.photo.handle - b.photo.handle);

/** The open photo with the same bytes, under whatever name. */
export const openAlready = (doc: Doc, print: string): OpenPhoto | undefined => openPhotos(doc).find((l) => l.photo.print === print)?.photo;

/** Its picture is not here; it is, when its file is opened again. */
export const isGone = ({ kept }: OpenPhoto): boolean => kept !== undefined && kept.scale === 0;

/** The same document with another picture in the place of one. */
export function withPicture(doc: Doc, was: OpenPhoto, is: OpenPhoto): Doc {
  const as = (photo: OpenPhoto): OpenPhoto => (photo === was ? is : photo);
  return { ...doc, photo: doc.photo && as(doc.photo), tray: doc.tray.map((l) => (l.photo === was ? { ...l, photo: is } : l)) };
}

export const isEmpty = (scene: Scene): boolean => scene.regions.length === 0 && scene.card === null;

/** Another photo is looked at; the one before goes on the tray. */
export const withOpened = (doc: Doc, photo: OpenPhoto, scene: Scene = UNTOUCHED.scene): Partial<Doc> => ({
  ...UNTOUCHED,
  photo,
  scene,
  tray: openPhotos(doc),
});

/** One more lies on the tray; it is looked at when nothing else is. */
export const withLaid = (doc: Doc, photo: OpenPhoto, scene: Scene = UNTOUCHED.scene): Partial<Doc> =>
  doc.photo ? { tray: [...doc.tray, { ...UNTOUCHED, photo, scene }] } : { ...UNTOUCHED, photo, scene };

/** The looked-at photo and a laid one take each other's place. */
export function withShown(doc: Doc, photo: OpenPhoto): Partial<Doc> | null {
  const laid = doc.tray.find((l) => l.photo === photo);
  if (!laid) return null;
  return { ...laid, tray: doc.tray.flatMap((l) => (l === laid ? ifAny(lookedAt(doc)) : [l])) };
}

/** Without one; should it be the one that is looked at, the next is. */
export function without(doc: Doc, photo: OpenPhoto): Partial<Doc> {
  const rest = doc.tray.filter((l) => l.photo !== photo);
  if (doc.photo !== photo) return { tray: rest };
  const [next, ...tray] = rest;
  return { ...UNTOUCHED, photo: null, ...next, tray };
}

/** The same laid photo with something else made of it, in a document that has it as it was. */
export function withAmended(doc: Doc, { photo, scene }: Laid, by: Partial<Laid>): Doc {
  const same = (l: Laid) => l.photo === photo && l.scene === scene;
  return doc.tray.some(same) ? { ...doc, tray: doc.tray.map((l) => (same(l) ? { ...l, ...by } : l)) } : doc;
}
