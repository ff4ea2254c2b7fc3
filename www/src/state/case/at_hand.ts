/** The case that is on the desk, as it is kept; `null` while nothing of the desk is. */
import { signal } from '@preact/signals';
import { language, words } from '../../words';

export interface CurrentCase {
  readonly id: string;
  /** What the user calls it; empty when it was not called anything. */
  readonly label: string;
  /** ISO 8601 in UTC, like `changed`. */
  readonly created: string;
  readonly changed: string;
  /** Made by a newer version: as a file it would lose what this one does not understand. */
  readonly readOnly?: boolean;
}

export const current = signal<CurrentCase | null>(null);

/** What is said to somebody at the start; it goes when it is answered. */
export interface Notice {
  /** Open in another window; or not opened again because something else was begun. */
  readonly kind: 'elsewhere' | 'waiting';
  readonly id: string;
  readonly name: string;
}
export const notice = signal<Notice | null>(null);

const dayOf = (iso: string): string => new Date(iso).toLocaleDateString(language.value.tag, { day: 'numeric', month: 'short' });

/** Shown, never kept. */
export const shownLabel = ({ label, created }: Pick<CurrentCase, 'label' | 'created'>): string => label || words.cases.untitled(dayOf(created));

/** Also where the browser gives no `randomUUID`: by http from another machine. */
export const newId = (): string => [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
