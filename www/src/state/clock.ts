/**
 * The drying clock: how long lips and cheeks have been held away. It belongs to the page, never to
 * the scene. Time is taken from the system's clock, so that a page that slept shows it right.
 */
import { computed, signal } from '@preact/signals';

/** From here the mean change passes the perceptibility threshold (J Dent 2021;105:103560). */
export const WARN_AFTER_MS = 120_000;
const SECOND_MS = 1000;

const startedAt = signal<number | null>(null);
const stoppedAt = signal<number | null>(null);
const now = signal(0);
/** By the page's own clock, which nobody sets back, and which rests while a device sleeps. */
let begunAt = 0;
let timer: ReturnType<typeof setTimeout> | undefined;

export type ClockState = 'ready' | 'running' | 'stopped';

export const clockState = computed<ClockState>(() => (startedAt.value === null ? 'ready' : stoppedAt.value === null ? 'running' : 'stopped'));

export const elapsedMs = computed(() => (startedAt.value === null ? 0 : Math.max(0, (stoppedAt.value ?? now.value) - startedAt.value)));

/** Long enough that the teeth are lighter than they were. */
export const dried = computed(() => elapsedMs.value >= WARN_AFTER_MS);

/** Looks at the time, and again at the next whole second. */
export function tick(): void {
  clearTimeout(timer);
  if (clockState.peek() !== 'running') return;
  now.value = timeNow();
  timer = setTimeout(tick, SECOND_MS - (elapsedMs.peek() % SECOND_MS));
}

/** By the system's clock, unless that was set back. */
const timeNow = (): number => Math.max(Date.now(), (startedAt.peek() ?? 0) + performance.now() - begunAt);

export function startClock(): void {
  stoppedAt.value = null;
  startedAt.value = Date.now();
  begunAt = performance.now();
  tick();
}

export function stopClock(): void {
  if (clockState.peek() === 'running') stoppedAt.value = timeNow();
  tick();
}

export function resetClock(): void {
  startedAt.value = stoppedAt.value = null;
  tick();
}

/** Minutes and seconds, rounded down as clocks do. */
export function clockText(ms: number): string {
  const seconds = Math.floor(ms / SECOND_MS);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
