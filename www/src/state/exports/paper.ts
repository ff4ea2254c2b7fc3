/** What goes on paper: the record of what is shown, or the sheet for the laboratory. */
import { signal } from '@preact/signals';
import { showMode } from '../ui';

/** The sheet for the laboratory is laid out, to be printed. */
export const labPaper = signal(false);

/** Until what was changed has been drawn. */
const drawn = (): Promise<void> => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve())));

/** The reading with all its depth, as the page lays it out on paper. */
export async function printRecord(): Promise<void> {
  showMode('reading');
  await drawn();
  window.print();
}

/** A sheet of its own, which is taken away after printing. */
export async function printLab(): Promise<void> {
  labPaper.value = true;
  await drawn();
  window.addEventListener('afterprint', () => (labPaper.value = false), { once: true });
  window.print();
}
