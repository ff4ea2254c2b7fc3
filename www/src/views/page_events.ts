/**
 * What the page as a whole listens to: drop, paste, undo keys, outlines hidden while H is held, the
 * pair's views by V.
 */
import { redoStep, undoStep } from '../state/desk';
import { cyclePair } from '../state/pair';
import { outlinesHidden } from '../state/ui';

interface PageEvents {
  open(file: File): void;
  dropping(on: boolean): void;
}

/** Where keys write text: Ctrl+Z there is the field's own. */
const inField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.matches('input:not([type=checkbox], [type=radio], [type=range]), textarea, select, [contenteditable]');

const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

export function attachPage({ open, dropping }: PageEvents): () => void {
  const stop = new AbortController();
  const on = <K extends keyof WindowEventMap>(type: K, listener: (event: WindowEventMap[K]) => void) =>
    window.addEventListener(type, listener, { signal: stop.signal });

  on('dragover', (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    dropping(true);
  });
  on('dragleave', (event) => event.relatedTarget === null && dropping(false));
  on('drop', (event) => {
    event.preventDefault();
    dropping(false);
    const file = event.dataTransfer?.files[0];
    if (file) open(file);
  });
  on('paste', (event) => {
    const file = event.clipboardData?.files[0];
    if (file) open(file);
  });
  on('keydown', (event) => {
    if (inField(event.target)) return;
    const command = event.ctrlKey || event.metaKey;
    const key = event.key.toLowerCase();
    if (command && key === 'z') {
      event.preventDefault();
      if (event.shiftKey) redoStep();
      else undoStep();
    } else if (command && key === 'y') {
      event.preventDefault();
      redoStep();
    } else if (!command && !event.altKey && key === 'h') outlinesHidden.value = true;
    else if (!command && !event.altKey && key === 'v') cyclePair();
  });
  on('keyup', (event) => {
    if (event.key.toLowerCase() === 'h') outlinesHidden.value = false;
  });
  on('blur', () => (outlinesHidden.value = false));
  return () => stop.abort();
}
