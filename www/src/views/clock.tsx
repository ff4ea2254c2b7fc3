/** The drying clock in the top bar, and what it says once the teeth have dried. */
import { useEffect } from 'preact/hooks';
import { clockState, clockText, dried, elapsedMs, resetClock, startClock, stopClock, tick } from '../state/clock';
import { words } from '../words';

export function Clock() {
  const t = words.clock;
  const state = clockState.value;
  // A page that was put to sleep looks at the time when it is seen again.
  useEffect(() => {
    document.addEventListener('visibilitychange', tick);
    return () => document.removeEventListener('visibilitychange', tick);
  }, []);
  if (state === 'ready') {
    return (
      <button type="button" class="clock-start" title={t.startLong} onClick={startClock}>
        {t.start}
      </button>
    );
  }
  const time = clockText(elapsedMs.value);
  const running = state === 'running';
  return (
    <div class="clock" role="group" aria-label={t.title}>
      <strong class="clock-time" role="timer" aria-label={t.running(time)}>
        {time}
      </strong>
      <button type="button" title={running ? t.stopLong : t.resetLong} onClick={running ? stopClock : resetClock}>
        {running ? t.stop : t.reset}
      </button>
    </div>
  );
}

/** Always there, so that it is read out when it gets its text: once. */
export function DryingNote() {
  const t = words.clock;
  return (
    <div class={dried.value ? 'drying-note shown' : 'drying-note'}>
      <p role="status">{dried.value ? t.warning : ''}</p>
      {dried.value && (
        <details>
          <summary>{t.why}</summary>
          <ul>
            {t.sources.map((source) => (
              <li key={source}>{source}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
