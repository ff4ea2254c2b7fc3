/** Which dialog is open. */
import { signal } from '@preact/signals';

export type DialogName = 'settings' | 'keys';

export const dialog = signal<DialogName | null>(null);
