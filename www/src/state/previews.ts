/** Reduced copies of the open photos, for the eye only. */
import type { CallOptions } from '../engine/client';
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import type { Preview } from '../engine/types';

/** Small tablets refuse larger canvases. */
export const MAX_PREVIEW_PX = 2_000_000;

const known = new WeakMap<OpenPhoto, Preview>();

export const previews = {
  async load(photo: OpenPhoto, options: CallOptions): Promise<void> {
    known.set(photo, await desk.preview(photo, MAX_PREVIEW_PX, options));
  },
  of: (photo: OpenPhoto): Preview | undefined => known.get(photo),
};

/** For `putImageData`: the picture's bytes as the canvas wants them. */
export const imageData = ({ width, height, rgba }: Preview): ImageData =>
  new ImageData(new Uint8ClampedArray(rgba.buffer as ArrayBuffer, rgba.byteOffset, rgba.byteLength), width, height);
