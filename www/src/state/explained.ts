/** Which word is being explained, and the button beside which that is done. */
import { signal } from '@preact/signals';
import type { words } from '../words';

export type TermName = keyof typeof words.help.terms.texts;

export const HELP_ID = 'help-box';

export const explained = signal<{ name: TermName; beside: HTMLElement } | null>(null);
