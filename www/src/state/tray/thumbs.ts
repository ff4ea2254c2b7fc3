/** Small copies of open photos, for the list. Made once each, one after another. */
import { signal } from '@preact/signals';
import type { CallOptions } from '../../engine/client';
import type { OpenPhoto } from '../../engine/desk';
import { desk } from '../../engine/instance';
import type { Preview } from '../../engine/types';

const MAX_PX = 40_000;

const made = new WeakMap<OpenPhoto, Preview>();
const wanted = new WeakSet<OpenPhoto>();
const changed = signal(0);
let last = Promise.resolve();

export const thumbs = {
  async load(photo: OpenPhoto, options: CallOptions = {}): Promise<void> {
    wanted.add(photo);
    made.set(photo, await desk.preview(photo, MAX_PX, options));
    changed.value++;
  },
  of: (photo: OpenPhoto): Preview | undefined => (changed.value, made.get(photo)),
  /** Soon, unless it is there. */
  want(photo: OpenPhoto): void {
    if (wanted.has(photo)) return;
    wanted.add(photo);
    // Without one the list still says everything.
    last = last.then(() => thumbs.load(photo, { by: 'front' })).catch(() => {});
  },
  /** When those that were wanted are there. */
  ready(photo: OpenPhoto): Promise<void> {
    thumbs.want(photo);
    return last;
  },
};
