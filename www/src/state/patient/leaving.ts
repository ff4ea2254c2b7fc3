/**
 * The way back, that a patient does not take by accident: held, or pressed and then confirmed. Both
 * work for a finger, a mouse, a key, a switch and a screen reader.
 */
import { signal } from '@preact/signals';
import { patientOpen } from './patient';

/** How long it is held. */
export const HOLD_MS = 1000;

/** Pressed: the question stands. */
export const asking = signal(false);
/** Held since then: nothing, the first half, the second. */
export const held = signal<0 | 1 | 2>(0);

let timers: ReturnType<typeof setTimeout>[] = [];

export function letGo(): void {
  timers.forEach(clearTimeout);
  timers = [];
  held.value = 0;
}

export function leave(): void {
  letGo();
  asking.value = patientOpen.value = false;
}

/** What is held repeats itself: only the first counts. */
export function hold(): void {
  if (held.value > 0) return;
  held.value = 1;
  timers = [setTimeout(() => (held.value = 2), HOLD_MS / 2), setTimeout(leave, HOLD_MS)];
}

/** A short press. */
export function ask(): void {
  letGo();
  asking.value = true;
}
