/**
 * What the page as a whole listens to: drop, paste, undo keys, outlines hidden while H is held, the
 * pair's views by V, the list of keys by ?; and leaving it, which loses what is not kept.
 */
import { effect } from '@preact/signals';
import { redoStep, undoStep } from '../state/desk';
import { dialog } from '../state/dialogs';
import { cyclePair } from '../state/pair';
import { settings } from '../state/settings';
import { mayLose, watchLoss } from '../state/tray/loss';
import { outlinesHidden } from '../state/ui';

interface PageEvents {
  open(files: readonly File[]): void;
  dropping(on: boolean): void;
}

/** Where keys write text: Ctrl+Z there is the field's own. */
const inField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.matches('input:not([type=checkbox], [type=radio], [type=range]), textarea, select, [contenteditable]');

const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

/** The browser asks in its own words. */
const ask = (event: BeforeUnloadEvent): void => event.preventDefault();

/** Listened for only while there is something to lose: it keeps a page from being put to sleep. */
function guardLeaving(): () => void {
  const stops = [watchLoss(), effect(() => (mayLose.value ? window.addEventListener('beforeunload', ask) : window.removeEventListener('beforeunload', ask)))];
  return () => (stops.forEach((stop) => stop()), window.removeEventListener('beforeunload', ask));
}

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
  const unguard = guardLeaving();
  return () => (unguard(), stop.abort());
}
