/** The tour: where it is, and that it was seen. */
import { computed, effect, signal } from '@preact/signals';
import { isDemo } from './demo';
import { photo } from './desk';
import { remember, settings } from './settings';
import { following, STATIONS } from './tour_model';
import { mode, side } from './ui';

/** The station on show. */
export const touring = signal<number | null>(null);

export const isThere = (selector: string): boolean => document.querySelector(selector) !== null;

const demoOpen = computed(() => isDemo(photo.value));

/** Offered with the demo until it was taken, or another photo was opened instead. */
export const tourOffered = computed(() => demoOpen.value && !settings.value.tourSeen && touring.value === null);

let offered = false;
effect(() => {
  if (offered && photo.value !== null && !demoOpen.value && !settings.peek().tourSeen) remember({ tourSeen: true });
  offered = tourOffered.value;
});

function show(at: number | null): void {
  if (at !== null) side.value = STATIONS[at]!.side;
  touring.value = at;
}

export function startTour(): void {
  mode.value = 'reading';
  remember({ tourSeen: true });
  // What is pointed at is drawn first.
  setTimeout(() => show(following(-1, 1, isThere)));
}

/** Past the last one the tour ends. */
export function goOn(): void {
  if (touring.value !== null) show(following(touring.value, 1, isThere));
}

export function goBack(): void {
  const before = touring.value === null ? null : following(touring.value, -1, isThere);
  if (before !== null) show(before);
}

export const leaveTour = (): void => show(null);
