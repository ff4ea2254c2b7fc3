/**
 * Readers for work that nobody waits for: each does one piece at a time. The front reader is the looked-at
 * photo's: it begins nothing else while it is asked for something, and gives up what keeps that waiting
 * for long. The helper is a second worker: begun when it is worth it, ended when there is nothing to do.
 */
import type { Lane } from '../../engine/client';
import { desk } from '../../engine/instance';
import { EngineError } from '../../engine/types';
import { busy } from '../status';

/** A reader that was given for one piece of work. */
export interface Slot {
  readonly by: Lane;
  readonly signal: AbortSignal;
  abort(): void;
  end(): void;
}

/** While outlines are dragged and pictures are asked for one by one, nothing else gets between. */
export const QUIET_MS = 100;
/** About what it takes to begin a worker and decode a photo: giving up costs that. */
const PATIENCE_MS = 500;
const LOOK_MS = 100;
/** Memory of a worker never shrinks. */
const REST_MS = 10_000;
/** For fewer photos the front reader is done before a second one has begun. */
const WORTH = 2;

const taken = new Map<Lane, Slot>();
let helps = false;
/** Until all is done without it. */
let helperFailed = false;
/** How often the front reader was ended at work since all was done; what ends it again and again is left. */
let endings = 0;
const MOST_ENDINGS = 3;
let resting: ReturnType<typeof setTimeout> | undefined;

export const isTaken = (lane: Lane): boolean => taken.has(lane);

/** With so many photos waiting. */
export const mayBegin = (lane: Lane, waiting: number): boolean =>
  !taken.has(lane) && (lane === 'front' ? !busy.value && desk.front.quietMs >= QUIET_MS : !helperFailed && (helps || waiting >= WORTH));

/** `then`: when it is free again. */
export function take(by: Lane, then: () => void): Slot {
  clearTimeout(resting);
  if (by === 'helper') helps = true;
  const abort = new AbortController();
  let waitedMs = 0;
  const watch = by === 'front' && setInterval(() => {
    waitedMs = desk.front.keepsWaiting ? waitedMs + LOOK_MS : 0;
    if (waitedMs >= PATIENCE_MS) abort.abort();
  }, LOOK_MS);
  const slot: Slot = {
    by,
    signal: abort.signal,
    abort: () => abort.abort(),
    end() {
      if (watch) clearInterval(watch);
      taken.delete(by);
      then();
    },
  };
  taken.set(by, slot);
  return slot;
}

/** Nothing is left to do. */
export function rest(): void {
  clearTimeout(resting);
  helperFailed = false;
  endings = 0;
  if (helps) resting = setTimeout(() => {
    helps = false;
    desk.restHelper();
  }, REST_MS);
}

/** Whether failed work is to be done again: it made way, its reader was ended, or the helper broke down or never began, which the front reader may not. */
export function again({ by, signal }: Slot, error: unknown): boolean {
  const broken = by === 'helper' && error instanceof EngineError && error.kind === 'internal';
  if (broken) helperFailed = true;
  const ended = by === 'front' && error instanceof EngineError && error.fault === 'ended' && endings++ < MOST_ENDINGS;
  return broken || ended || signal.aborted;
}
