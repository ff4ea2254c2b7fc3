/** Planning the job again; asks in the page before ticks are dropped. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { limitsChanged } from '../../state/stains/plan_inputs';
import { planAgain } from '../../state/stains/planning';
import { passFired } from '../../state/stains/passes';
import { work } from '../../state/stains/work';
import { words } from '../../words';
import { focusOn } from '../focus_on';
import { limitsText } from './limits';

export function Again() {
  const t = words.plan;
  const asking = useSignal(false);
  const question = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const ticks = work.value?.ticks.length ?? 0;
  const asks = asking.value && ticks > 0;
  useEffect(() => {
    if (asks) question.current?.focus();
  }, [asks]);
  const again = () => {
    asking.value = false;
    void planAgain().then(() => focusOn('plan-head'));
  };
  const keep = () => {
    asking.value = false;
    setTimeout(() => button.current?.focus());
  };
  if (!asks) return <button type="button" ref={button} title={t.againHint} onClick={() => (ticks > 0 ? (asking.value = true) : again())}>{t.again}</button>;
  return (
    <div class="asks" role="group" tabIndex={-1} ref={question} aria-label={t.againDrops(ticks)} onKeyDown={(e) => e.key === 'Escape' && keep()}>
      <p>{t.againDrops(ticks)}</p>
      <div class="chips">
        <button type="button" class="primary" onClick={keep}>{t.againNo}</button>
        <button type="button" onClick={again}>{t.againYes}</button>
      </div>
    </div>
  );
}

/** What the job's plan was made with, whatever was allowed since. */
export function PlannedWith() {
  const t = words.plan.limits;
  const now = work.value;
  if (!now) return null;
  return (
    <div class="planned-with">
      <p><strong>{t.planned}</strong> <span class="soft">{limitsText(now.plan.limits)}</span></p>
      {limitsChanged.value && !passFired.value && <div class="changed-limits"><p role="status">{t.changed}</p><Again /></div>}
    </div>
  );
}
