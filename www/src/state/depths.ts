/** What of a view's depth is open: remembered while the page is, and nothing of it is undone. */
import { signal } from '@preact/signals';

export type DepthName = 'stands' | 'tabs' | 'how' | 'evenness' | 'numbers' | 'outlines' | 'retake' | 'tabs-check' | 'notes' | 'verified';

const open = signal<ReadonlySet<DepthName>>(new Set());

export const isOpen = (name: DepthName): boolean => open.value.has(name);

export function setDepth(name: DepthName, to: boolean): void {
  const next = new Set(open.value);
  if (to) next.add(name);
  else next.delete(name);
  open.value = next;
}
