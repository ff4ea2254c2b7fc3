/** The plan: from where to where, what to paint, step by step, and what must be said with it. */
import { CoatPatterns } from '../../charts/coats_bar';
import { label, nameWork, begin, planAgain, planProblem, putAway, refusals, shownPlan } from '../../state/stains/planning';
import { work } from '../../state/stains/work';
import { words } from '../../words';
import { PassesSection } from '../passes/passes';
import { Cautions, Shortfalls } from './beside';
import { Limits } from './limits';
import { PlanSheet } from './plan_sheet';
import { Refusals, Source } from './source';
import { StepSheet } from './step_sheet';
import { Steps } from './steps';

function WorkHead() {
  const t = words.plan;
  const now = work.value;
  if (!now) return null;
  return (
    <section class="work-head">
      <div>
        <h2>{t.fromTo(now.restoration, now.target)}</h2>
        <p>{t.atHand(now.label)}. {t.pass(now.passes.length)}</p>
      </div>
      <div class="chips">
        <button type="button" title={t.againHint} onClick={() => void planAgain()}>{t.again}</button>
        <button type="button" onClick={putAway}>{t.putAway}</button>
      </div>
    </section>
  );
}

function WorkTools() {
  const t = words.plan;
  return (
    <section class="work-tools">
      <label>
        {t.label}
        <input value={label.value} maxLength={60} autocomplete="off" onInput={(e) => nameWork(e.currentTarget.value)} />
      </label>
      <div class="chips">
        {!work.value && <button type="button" class="primary" title={t.beginHint} onClick={() => begin()}>{t.begin}</button>}
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
      {plan.demo && <p class="demo-line">{t.demo}</p>}
      <PlanSheet plan={plan} />
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
