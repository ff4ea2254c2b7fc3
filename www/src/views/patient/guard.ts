/**
 * What the whole page does while the patient looks at it: the rest is out of reach, its keys rest,
 * nothing is dropped or pasted, and the browser's way back asks as the button does.
 */
import { ask, asking } from '../../state/patient/leaving';

/** Keys that hold on after the view has closed would press what has the focus then. */
function untilLetGo(event: KeyboardEvent): void {
  if (event.type === 'keydown' && event.repeat) return event.preventDefault();
  for (const type of ['keydown', 'keyup'] as const) window.removeEventListener(type, untilLetGo, true);
}

/** So long after a finger is lifted its click still comes. */
const CLICK_MS = 500;

/** A finger that holds on after the view has closed would press what lies under it then. */
function swallowClick(): void {
  const swallow = (event: Event) => (event.preventDefault(), event.stopPropagation());
  const stop = new AbortController();
  for (const type of ['click', 'contextmenu']) window.addEventListener(type, swallow, { capture: true, signal: stop.signal });
  for (const type of ['pointerup', 'pointercancel']) window.addEventListener(type, () => setTimeout(() => stop.abort(), CLICK_MS), { capture: true, signal: stop.signal });
}

export function guard(dialog: HTMLDialogElement): () => void {
  const stop = new AbortController();
  const on = (type: string, listener: (event: Event) => void, capture = false) => window.addEventListener(type, listener, { signal: stop.signal, capture });
  const inside = (event: Event) => dialog.contains(event.target as Node);
  const show = () => dialog.isConnected && !dialog.open && dialog.showModal();

  let pressed = false;
  on('pointerdown', () => (pressed = true), true);
  for (const type of ['pointerup', 'pointercancel']) on(type, () => (pressed = false), true);
  show();
  dialog.focus();
  history.pushState({ patient: true }, '');
  on('popstate', () => {
    history.pushState({ patient: true }, '');
    ask();
  });
  on('keydown', (event) => {
    if ((event as KeyboardEvent).key === 'Escape') {
      event.preventDefault();
      if (asking.value) asking.value = false;
      else ask();
    }
    if (!inside(event)) event.stopPropagation();
  }, true);
  for (const type of ['keydown', 'keyup', 'paste', 'dragover', 'drop']) dialog.addEventListener(type, (event) => event.stopPropagation());
  for (const type of ['dragover', 'drop']) on(type, (event) => event.preventDefault(), true);
  // Some browsers close it by themselves at a gesture of the device.
  dialog.addEventListener('close', () => (show(), ask()), { signal: stop.signal });
  dialog.addEventListener('cancel', (event) => event.preventDefault());

  return () => {
    stop.abort();
    if (pressed) swallowClick();
    for (const type of ['keydown', 'keyup'] as const) window.addEventListener(type, untilLetGo, true);
    dialog.close();
    history.back();
  };
}
