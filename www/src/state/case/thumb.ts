/** A small picture of a photo as a file, for the list of cases. For the eye only. */
import { imageData } from '../previews';
import { thumbs } from '../tray/thumbs';
import type { OpenPhoto } from '../../engine/desk';

const made = new WeakMap<OpenPhoto, Blob>();
const begun = new WeakSet<OpenPhoto>();

/** The one that was kept with the case. */
export const noteThumb = (photo: OpenPhoto, file: Blob): void => void made.set(photo, file);

async function draw(photo: OpenPhoto): Promise<void> {
  const picture = thumbs.of(photo);
  if (!picture || typeof document === 'undefined') return;
  const canvas = Object.assign(document.createElement('canvas'), { width: picture.width, height: picture.height });
  canvas.getContext('2d')?.putImageData(imageData(picture), 0, 0);
  const file = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.85));
  if (file) made.set(photo, file);
}

/** When it is not there yet it is made, and `ready` called. */
export function thumbOf(photo: OpenPhoto, ready: () => void): Blob | null {
  const known = made.get(photo);
  if (known || begun.has(photo) || photo.kept?.scale === 0) return known ?? null;
  begun.add(photo);
  // Without one the list still says everything.
  void thumbs.ready(photo).then(() => draw(photo)).then(ready, () => {});
  return null;
}
