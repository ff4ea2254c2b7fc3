/** The box that says what a word means, beside the word. Escape or a press elsewhere closes it. */
import { useEffect, useRef } from 'preact/hooks';
import { explained, HELP_ID } from '../state/explained';
import { words } from '../words';

const GAP_PX = 6;
const EDGE_PX = 8;

/** Below the word, above it where there is no room; within the window. */
function place(box: HTMLElement, beside: HTMLElement): void {
  const at = beside.getBoundingClientRect();
  const { offsetWidth: width, offsetHeight: height } = box;
  const below = at.bottom + GAP_PX;
  const top = below + height <= innerHeight - EDGE_PX ? below : at.top - GAP_PX - height;
  box.style.left = `${Math.max(EDGE_PX, Math.min(at.left, innerWidth - width - EDGE_PX))}px`;
  box.style.top = `${Math.max(EDGE_PX, top)}px`;
}

export function HelpBox() {
  const box = useRef<HTMLDivElement>(null);
  const now = explained.value;
  useEffect(() => {
    const shown = box.current!;
    if (!now) return shown.matches(':popover-open') ? shown.hidePopover() : undefined;
    if (!shown.matches(':popover-open')) shown.showPopover();
    place(shown, now.beside);
    shown.focus();
    const away = () => (explained.value = null);
    window.addEventListener('resize', away);
    return () => window.removeEventListener('resize', away);
  }, [now]);
  const closed = (event: Event) => {
    if ((event as ToggleEvent).newState === 'closed' && explained.peek() === now) explained.value = null;
  };
  return (
    <div ref={box} id={HELP_ID} class="help-box" popover="auto" role="dialog" tabIndex={-1} aria-labelledby="help-name" aria-describedby="help-text" onToggle={closed}>
      <strong id="help-name">{now && words.help.terms.shown[now.name]}</strong>
      <p id="help-text">{now && words.help.terms.texts[now.name]}</p>
      <button type="button" onClick={() => (explained.value = null)}>
        {words.help.close}
      </button>
    </div>
  );
}
