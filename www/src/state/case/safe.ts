/** What of the desk is safely kept in the browser: the keeper says it, who warns of losses reads it. */
import { signal } from '@preact/signals';
import type { OpenPhoto } from '../../engine/desk';
import type { Doc } from '../doc';

export interface Safe {
  /** As it was kept last. */
  readonly doc: Doc;
  /** Photos of it whose picture is not kept. */
  readonly without: ReadonlySet<OpenPhoto>;
}

export const safe = signal<Safe | null>(null);

/** Where the page notes, for its next start, that a case is kept. The case itself is in the database. */
export const HINT = 'tabside.case.1';

/** Of this window: its case outlives a reload, and another window has its own. */
export const HERE = 'tabside.case.here';

export function casesKept(): boolean {
  try {
    return Boolean(localStorage.getItem(HINT) ?? sessionStorage.getItem(HERE));
  } catch {
    return false;
  }
}
