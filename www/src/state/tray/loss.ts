/**
 * Whether work would be lost with the page: photos that the user did something to, or several that
 * would have to be opened again, as far as they are not kept with their case. What is found is found
 * again, the demo is a click away.
 */
import { effect, signal } from '@preact/signals';
import type { OpenPhoto } from '../../engine/desk';
import { words } from '../../words';
import { isDemo } from '../demo';
import { safe } from '../case/safe';
import { doc, undoLabel } from '../desk';
import { openPhotos } from './laid';

const touched = new WeakSet<OpenPhoto>();

export const mayLose = signal(false);

export function watchLoss(): () => void {
  let before = doc.peek();
  return effect(() => {
    const now = doc.value;
    const label = undoLabel.peek();
    const { photo } = now;
    const same = (['scene', 'target', 'proposal', 'notes', 'polarised'] as const).every((key) => now[key] === before[key]);
    if (photo && photo === before.photo && !same && label !== words.edits.find) touched.add(photo);
    before = now;
    const kept = safe.value?.doc === now ? safe.value.without : null;
    const own = openPhotos(now).map((laid) => laid.photo).filter((p) => !isDemo(p) && (!kept || kept.has(p)));
    mayLose.value = own.length > 1 || own.some((p) => touched.has(p));
  });
}
