/**
 * What the page as a whole listens to: drop, paste, undo keys, outlines hidden while H is held, the
 * pair's views by V, the list of keys by ?.
 */
import { redoStep, undoStep } from '../state/desk';
import { dialog } from '../state/dialogs';
import { cyclePair } from '../state/pair';
import { settings } from '../state/settings';
import { outlinesHidden } from '../state/ui';

interface PageEvents {
  open(files: readonly File[]): void;
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

  const give = (data: DataTransfer | null) => data?.files.length && open([...data.files]);

  on('dragover', (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    dropping(true);
  });
  on('dragleave', (event) => event.relatedTarget === null && dropping(false));
  on('drop', (event) => {
    event.preventDefault();
    dropping(false);
    give(event.dataTransfer);
  });
  on('paste', (event) => {
    give(event.clipboardData);
  });
  on('keydown', (event) => {
    if (inField(event.target)) return;
    const command = event.ctrlKey || event.metaKey;
    const key = event.key.toLowerCase();
    const single = !command && !event.altKey && settings.value.singleKeys !== false;
    if (command && key === 'z') {
      event.preventDefault();
      if (event.shiftKey) redoStep();
      else undoStep();
    } else if (command && key === 'y') {
      event.preventDefault();
      redoStep();
    } else if (single && key === 'h') outlinesHidden.value = true;
    else if (single && key === 'v') cyclePair();
    else if (single && key === '?') dialog.value = 'keys';
  });
  on('keyup', (event) => {
    if (event.key.toLowerCase() === 'h') outlinesHidden.value = false;
  });
  on('blur', () => (outlinesHidden.value = false));
  return () => stop.abort();
}
