/** On the start: the work that waits on this device, and the way back to it. */
import { passFired } from '../../state/stains/passes';
import { work } from '../../state/stains/work';
import { showMode } from '../../state/ui';
import { words } from '../../words';

export function WorkWaiting() {
  const t = words.passes.waiting;
  const now = work.value;
  if (!now) return null;
  const how = passFired.value ? t.fired(now.passes.length) : t.steps(now.passes.length + 1, now.ticks.length, now.plan.steps.length);
  return (
    <p class="work-waiting">
      <span>{t.line(now.label, how)}</span>
      <button type="button" onClick={() => showMode('plan')}>
        {t.goOn}
      </button>
    </p>
  );
}
