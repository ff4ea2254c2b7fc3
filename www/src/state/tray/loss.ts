/**
 * Whether work would be lost with the page: photos that the user did something to, or several that
 * would have to be opened again. Stains are kept, what is found is found again, the demo is a click away.
 */
import { effect, signal } from '@preact/signals';
import type { OpenPhoto } from '../../engine/desk';
import { words } from '../../words';
import { isDemo } from '../demo';
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
    const own = openPhotos(now).map((laid) => laid.photo).filter((p) => !isDemo(p));
    mayLose.value = own.length > 1 || own.some((p) => touched.has(p));
  });
}
