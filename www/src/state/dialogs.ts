/** Which dialog is open. */
import { signal } from '@preact/signals';

export type DialogName = 'exports' | 'settings' | 'keys' | 'privacy' | 'cases' | 'saveCase' | 'unlockCase';

export const dialog = signal<DialogName | null>(null);
