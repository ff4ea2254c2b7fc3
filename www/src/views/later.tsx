/**
 * Parts of the page that come after its first screen. Each is a file of its own, fetched as soon as
 * the first screen stands, whether it is wanted or not: later the page asks its server for nothing.
 */
import { signal } from '@preact/signals';
import type { ComponentType } from 'preact';
import { report } from '../state/problems';
import { words } from '../words';

const parts: (() => Promise<void>)[] = [];

/** Something else that is fetched then. */
export const alsoLater = (load: () => Promise<void>): void => void parts.push(load);

/** `place` is the id of a whole side of the page, which is there, empty, until the part has come. */
export function later(load: () => Promise<ComponentType>, place?: string): ComponentType {
  const part = signal<ComponentType | null>(null);
  let loading: Promise<void> | null = null;
  const fetchOnce = () =>
    (loading ??= load().then(
      (found) => void (part.value = found),
      (error: unknown) => {
        loading = null;
        report(words.errors.partFailed, error);
      },
    ));
  parts.push(fetchOnce);
  return function Later() {
    const Part = part.value;
    if (Part) return <Part />;
    void fetchOnce();
    return place ? <section class="panel" id={place} tabIndex={-1} aria-label={words.busy.starting} aria-busy="true" /> : null;
  };
}

/** Fetches every part, one after another, when the browser has nothing better to do. */
export function fetchLater(): void {
  const soon = window.requestIdleCallback ?? ((act: () => void) => setTimeout(act, 200));
  soon(async () => {
    for (const part of parts) await part();
  });
}
