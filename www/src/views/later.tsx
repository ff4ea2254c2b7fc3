/**
 * Parts of the page that come after its first screen. They are one file, fetched as soon as the first
 * screen stands, whether they are wanted or not: later the page asks its server for nothing.
 */
import { signal } from '@preact/signals';
import type { ComponentType } from 'preact';
import { partMissing } from '../state/problems';
import { words } from '../words';

type Parts = typeof import('./parts');
/** What is shown; what else comes with the parts is asked for where it is used. */
type Shown = { [K in keyof Parts]: Parts[K] extends ComponentType ? K : never }[keyof Parts];

const parts = signal<Parts | null>(null);
let loading: Promise<void> | null = null;

const fetchParts = (): Promise<void> =>
  (loading ??= import('./parts').then(
    (found) => {
      parts.value = found;
      found.startBehind();
      found.startSharpening();
    },
    () => {
      loading = null;
      partMissing();
    },
  ));

/** `place` is the id of a whole side of the page, which is there, empty, until the part has come. */
export function later(name: Shown, place?: string): ComponentType {
  return function Later() {
    const Part = parts.value?.[name];
    if (Part) return <Part />;
    void fetchParts();
    return place ? <section class="panel" id={place} tabIndex={-1} aria-label={words.busy.starting} aria-busy="true" /> : null;
  };
}

/** Fetches the parts, and then what else is wanted, when the browser has nothing better to do. */
export function fetchLater(andThen: () => Promise<void>): void {
  const soon = window.requestIdleCallback ?? ((act: () => void) => setTimeout(act, 200));
  soon(() => void fetchParts().then(andThen).then(() => parts.value?.warm()));
}
