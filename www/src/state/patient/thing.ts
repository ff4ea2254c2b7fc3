/** What the restoration is called before the patient: the clinician says so, and the device remembers it. */
import { signal } from '@preact/signals';

const KEY = 'tabside.patient.thing';
export const THINGS = ['crown', 'veneer'] as const;
export type Thing = (typeof THINGS)[number];

/** A device that keeps nothing says it anew each time. */
function kept(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

export const thing = signal<Thing>(THINGS.find((t) => t === kept()) ?? 'crown');

export function callIt(next: Thing): void {
  thing.value = next;
  try {
    localStorage.setItem(KEY, next);
  } catch {
    // It is called so until the page is closed.
  }
}
