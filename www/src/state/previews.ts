/** Reduced copies of the photos that are looked at, for the eye only. They are large: few are kept. */
import { computed, effect, signal, untracked } from '@preact/signals';
import type { CallOptions } from '../engine/client';
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import type { Preview } from '../engine/types';
import { doc } from './desk';

/** Small tablets refuse larger canvases. */
export const MAX_PREVIEW_PX = 2_000_000;
/** About 8 MB each. */
const MAX_KEPT = 8;

/** The last one looked at stands last. */
const known = new Map<OpenPhoto, Preview>();
const changed = signal(0);

function keep(photo: OpenPhoto, preview: Preview): void {
  known.delete(photo);
  known.set(photo, preview);
  for (const oldest of [...known.keys()].slice(0, -MAX_KEPT)) known.delete(oldest);
}

export const previews = {
  /** What is there at once; `sharpen` makes it finer. */
  async load(photo: OpenPhoto, options: CallOptions = {}): Promise<void> {
    previews.put(photo, await desk.glimpse(photo, MAX_PREVIEW_PX, options));
  },
  put(photo: OpenPhoto, preview: Preview): void {
    keep(photo, preview);
    changed.value++;
  },
  of: (photo: OpenPhoto): Preview | undefined => (changed.value, known.get(photo)),
  has: (photo: OpenPhoto): boolean => known.has(photo),
};

/** Undo may bring a photo back whose copy is not kept any more. */
export function startPreviews(): () => void {
  const stops = (['photo', 'polarised'] as const).map((which) => {
    const shown = computed(() => doc.value[which]);
    return effect(() => {
      const photo = shown.value;
      const there = photo && known.get(photo);
      if (there) keep(photo, there);
      // What fails here fails for its reading too, which says why.
      else if (photo) untracked(() => void previews.load(photo).catch(() => {}));
    });
  });
  return () => stops.forEach((stop) => stop());
}

/** For `putImageData`: the picture's bytes as the canvas wants them. */
export const imageData = ({ width, height, rgba }: Preview): ImageData =>
  new ImageData(new Uint8ClampedArray(rgba.buffer as ArrayBuffer, rgba.byteOffset, rgba.byteLength), width, height);
