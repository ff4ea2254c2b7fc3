/** The plan: from where to where, what to paint, step by step, and what must be said with it. */
import { CoatPatterns } from '../../charts/coats_bar';
import { label, nameWork, begin, planProblem, putAway, refusals, shownNames, shownPlan } from '../../state/stains/planning';
import { passFired } from '../../state/stains/passes';
import { work } from '../../state/stains/work';
import { say } from '../../state/status';
import { words } from '../../words';
import { PassesSection } from '../passes/passes';
import { focusOn } from '../focus_on';
import { TextField } from '../text_field';
import { Again, PlannedWith } from './again';
import { Cautions, ShortfallLine, Shortfalls } from './beside';
import { Invented } from './invented';
import { Limits } from './limits';
import { PlanSheet } from './plan_sheet';
import { FromTo, Refusals, Source } from './source';
import { StepSheet } from './step_sheet';
import { Steps } from './steps';

function WorkHead() {
  const t = words.plan;
  const now = work.value;
  if (!now) return null;
  return (
    <section class="work-head">
      <div>
        {shownNames.value && <FromTo names={shownNames.value} />}
        <p>{t.atHand(now.label)}. {passFired.value ? words.passes.head(now.passes.length) : t.pass(now.passes.length)}</p>
      </div>
      <div class="chips">
        {!passFired.value && <Again />}
        <button type="button" title={words.passes.closeHint} onClick={() => (putAway(), say(words.passes.said.closed))}>{words.passes.close}</button>
      </div>
    </section>
  );
}

function takeInHand(): void {
  begin();
  focusOn('plan-head');
}

function WorkTools() {
  const t = words.plan;
  return (
    <section class="work-tools">
      <TextField label={t.label} value={label.value} put={nameWork} />
      <div class="chips">
        {!work.value && <button type="button" class="primary" title={t.beginHint} onClick={takeInHand}>{t.begin}</button>}
        <button type="button" onClick={() => window.print()}>{t.print}</button>
      </div>
    </section>
  );
}

function Result() {
  const t = words.plan;
  const plan = shownPlan.value;
  const failed = planProblem.value;
  if (!plan && refusals.value.length > 0) return <Refusals />;
  if (!plan && failed) return <div class="reason"><strong>{failed.title}</strong><p>{failed.text} {failed.advice}</p></div>;
  if (!plan) return <p class="waiting">{t.making}</p>;
  return (
    <>
      <ShortfallLine plan={plan} />
      <Invented plan={plan} />
      <PlanSheet plan={plan} />
      <PlannedWith />
      <Limits />
      <div class="plan-columns">
        <div class="beside">
          <Shortfalls plan={plan} />
          <Cautions plan={plan} />
        </div>
        <div>
          <WorkTools />
          <Steps plan={plan} />
        </div>
      </div>
    </>
  );
}

export function PlanView() {
  const plan = shownPlan.value;
  return (
    <section class="panel plan" id="plan" tabIndex={-1} aria-label={words.plan.title}>
      {work.value ? <WorkHead /> : <Source />}
      <Result />
      <PassesSection />
      {plan && <StepSheet plan={plan} />}
      <CoatPatterns />
    </section>
  );
}
