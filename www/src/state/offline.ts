/**
 * The copy of the program on this device: whether it is there, and whether a newer one waits. The copy
 * itself is the service worker's; who answers for it is told here by `offline/start`.
 */
import { signal } from '@preact/signals';
import type { Answer } from '../offline/talk';
import { mayLose } from './tray/loss';

/** `file`: all of it is one file, and there is no copy. */
export type ProgramCopy = 'none' | 'kept' | 'file';

export const programCopy = signal<ProgramCopy>('none');

/** What takes a waiting version over; `null` while there is none. */
export const newVersion = signal<(() => Promise<Answer>) | null>(null);

/** The notice was closed; the dialog still offers it. */
export const noticeClosed = signal(false);

/** The page is about to be left without the browser's question: the user was asked before. */
export function leaveUnasked(): void {
  mayLose.value = false;
}
