/** The button that is held, and the question that a short press asks. */
import { useEffect, useRef } from 'preact/hooks';
import { ask, asking, held, hold, leave, letGo } from '../../state/patient/leaving';
import { words } from '../../words';

const isPress = ({ key }: KeyboardEvent): boolean => key === 'Enter' || key === ' ';

/** Keys would press at once: they are held, and press when let go early. */
function keyDown(event: KeyboardEvent): void {
  if (!isPress(event)) return;
  event.preventDefault();
  hold();
}

function keyUp(event: KeyboardEvent): void {
  if (!isPress(event)) return;
  event.preventDefault();
  if (held.value > 0) ask();
}

export function Back() {
  const t = words.patient;
  const now = held.value;
  return (
    <button
      type="button"
      class={now ? 'patient-back held' : 'patient-back'}
      title={t.holdHint}
      onPointerDown={(e) => e.button === 0 && hold()}
      onPointerLeave={letGo}
      onPointerCancel={letGo}
      onContextMenu={(e) => e.preventDefault()}
      onKeyDown={keyDown}
      onKeyUp={keyUp}
      onBlur={letGo}
      onClick={ask}
    >
      <i aria-hidden="true" />
      <span>{now ? t.holding[now - 1] : t.back}</span>
    </button>
  );
}

export function Question() {
  const no = useRef<HTMLButtonElement>(null);
  const open = asking.value;
  useEffect(() => {
    if (!open) return;
    no.current?.focus();
    return () => document.querySelector<HTMLElement>('.patient-back')?.focus();
  }, [open]);
  if (!open) return null;
  const t = words.patient;
  return (
    <div class="patient-question" role="alertdialog" aria-labelledby="patient-question">
      <p id="patient-question">{t.ask}</p>
      <button type="button" onClick={leave}>
        {t.yes}
      </button>
      <button type="button" ref={no} onClick={() => (asking.value = false)}>
        {t.no}
      </button>
    </div>
  );
}
