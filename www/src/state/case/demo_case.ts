/** Looking at the demo begins no case; doing something to it does. */
import { effect } from '@preact/signals';
import type { OpenPhoto } from '../../engine/desk';
import { isDemo } from '../demo';
import { doc } from '../desk';
import type { Doc } from '../doc';

const PARTS = ['polarised', 'scene', 'target', 'proposal', 'notes'] as const;
const first = new WeakMap<OpenPhoto, Doc>();

/** Notes how the demo was when it came. */
export const watchDemo = (): (() => void) =>
  effect(() => {
    const { photo } = doc.value;
    if (photo && isDemo(photo) && !first.has(photo)) first.set(photo, doc.value);
  });

export function isUntouchedDemo(now: Doc): boolean {
  const before = now.photo && first.get(now.photo);
  return !!before && isDemo(now.photo) && now.tray.length === 0 && !now.stains.work && PARTS.every((key) => now[key] === before[key]);
}
