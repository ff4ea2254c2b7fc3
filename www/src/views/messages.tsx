/** The status region, the problem on show, and what is busy. */
import { useSignal, useSignalEffect } from '@preact/signals';
import { busy, problem, status, told } from '../state/status';
import { words } from '../words';

/** Shorter work is not worth a flicker. */
const SHOW_AFTER_MS = 300;

export function Status() {
  return (
    <p class="status" role="status">
      {status.value}
    </p>
  );
}

export function ToldBox() {
  const t = told.value;
  if (!t) return null;
  const close = () => (told.value = null);
  return (
    <div class="told" role="status">
      <p>{t.text}</p>
      {t.act && <button type="button" onClick={() => (close(), t.act!.run())}>{t.act.label}</button>}
      <button type="button" aria-label={words.dismiss} onClick={close}>
        ×
      </button>
    </div>
  );
}

export function ProblemBox() {
  const p = problem.value;
  if (!p) return null;
  return (
    <div class="problem" role="alert">
      <div>
        <strong>{p.title}</strong>
        {p.text && <p>{p.text}</p>}
        {p.advice && <p>{p.advice}</p>}
      </div>
      <button type="button" aria-label={words.dismiss} onClick={() => (problem.value = null)}>
        ×
      </button>
    </div>
  );
}

export function BusyBar() {
  const shown = useSignal(false);
  useSignalEffect(() => {
    const current = busy.value;
    if (!current) {
      shown.value = false;
      return;
    }
    const wait = Math.max(0, SHOW_AFTER_MS - (performance.now() - current.since));
    const timer = setTimeout(() => (shown.value = true), wait);
    return () => clearTimeout(timer);
  });
  const current = busy.value;
  if (!current || !shown.value) return null;
  return (
    <div class="busy" role="group" aria-label={current.label}>
      <span>
        {current.label}
        {current.phase && current.phase !== 'working' ? `: ${words.busy.phase[current.phase]}` : ''}
      </span>
      <progress aria-label={current.label} />
      <button type="button" onClick={current.cancel}>
        {words.busy.cancel}
      </button>
    </div>
  );
}
