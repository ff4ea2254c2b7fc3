/** A small picture of a photo as a file, for the list of cases. For the eye only. */
import { imageData, previews } from '../previews';
import { thumbs } from '../tray/thumbs';
import type { OpenPhoto } from '../../engine/desk';
import type { Preview } from '../../engine/types';

const made = new WeakMap<OpenPhoto, Blob>();
const begun = new WeakSet<OpenPhoto>();

/** The one that was kept with the case. */
export const noteThumb = (photo: OpenPhoto, file: Blob): void => void made.set(photo, file);

const LONG_SIDE_PX = 240;

const canvasOf = (width: number, height: number): HTMLCanvasElement => Object.assign(document.createElement('canvas'), { width, height });

async function draw(photo: OpenPhoto, picture: Preview | undefined): Promise<void> {
  if (!picture || typeof document === 'undefined') return;
  const k = Math.min(1, LONG_SIDE_PX / Math.max(picture.width, picture.height));
  const [whole, small] = [canvasOf(picture.width, picture.height), canvasOf(Math.round(k * picture.width), Math.round(k * picture.height))];
  whole.getContext('2d')?.putImageData(imageData(picture), 0, 0);
  const context = small.getContext('2d');
  if (context) context.imageSmoothingQuality = 'high';
  context?.drawImage(whole, 0, 0, small.width, small.height);
  const file = await new Promise<Blob | null>((done) => small.toBlob(done, 'image/jpeg', 0.85));
  if (file) made.set(photo, file);
}

/** When it is not there yet it is made, and `ready` called. */
export function thumbOf(photo: OpenPhoto, ready: () => void): Blob | null {
  const known = made.get(photo);
  if (known || begun.has(photo) || photo.kept?.scale === 0) return known ?? null;
  begun.add(photo);
  const shown = previews.of(photo);
  // What is on show is there at once: a case may be left before its turn comes in the worker. Without one the list still says everything.
  void (shown ? draw(photo, shown) : thumbs.ready(photo).then(() => draw(photo, thumbs.of(photo)))).then(ready, () => {});
  return null;
}
