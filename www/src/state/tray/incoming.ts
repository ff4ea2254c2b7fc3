/** Files on their way to the tray. */
import { signal } from '@preact/signals';

export interface Incoming {
  readonly file: File;
  readonly name: string;
  /** Its outlines, saved as a file of the same name. */
  readonly scene: File | undefined;
  readonly state: 'waiting' | 'opening' | 'failed';
  /** Why it failed. */
  readonly why: string;
}

/** Files that are not open photos yet, or cannot be. */
export const incoming = signal<readonly Incoming[]>([]);

/** How far it is: the how many-th of how many, and the way to give up what is left. */
export const opening = signal<{ at: number; of: number; name: string; cancel: () => void } | null>(null);
