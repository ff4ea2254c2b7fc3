/** The steps in the order of work, each with a box to tick. */
import { fixed, percent } from '../../charts/format';
import type { Plan, PlanStep } from '../../engine/types';
import { tickStep } from '../../state/stains/planning';
import { isTicked } from '../../state/stains/work';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { labText } from './said';

/** What stands before how it should look: paint is judged once it is fired. */
export const lookHead = ({ kind }: PlanStep): string => (kind === 'paint' ? words.plan.fired : words.plan.look);

/** The head says that it is fired. */
export const lookText = ({ kind, look }: PlanStep): string => engineWords(kind === 'paint' ? look.replace(/ third fired:/g, ' third:') : look);

/** Empty when the stroke says it already. */
export function featherText({ feather, stroke }: PlanStep): string {
  const t = words.plan;
  return (stroke.includes('%') ? [] : (feather ?? [])).map(({ into, share }) => t.featherInto(percent(share), words.names.zone[into])).join(', ');
}

/** None when what it should look like says them already. */
export const expectTexts = ({ zones, expect, look }: PlanStep): string[] =>
  (look.includes('L*') ? [] : expect).flatMap(({ lab, doubt }, i) => (zones[i] ? [words.plan.expectZone(words.names.zoneShort[zones[i]], labText(lab), fixed(doubt))] : []));

function Details({ step }: { step: PlanStep }) {
  const t = words.plan;
  const feather = featherText(step);
  const expected = expectTexts(step);
  return (
    <dl>
      {step.stroke && <div><dt>{t.stroke}</dt><dd>{engineWords(step.stroke)}</dd></div>}
      {feather && <div><dt>{t.feather}</dt><dd>{feather}</dd></div>}
      {step.look && <div><dt>{lookHead(step)}</dt><dd>{lookText(step)}</dd></div>}
      {expected.length > 0 && <div><dt>{t.expect}</dt><dd>{expected.map((text) => <span key={text} class="expected">{text}</span>)}</dd></div>}
    </dl>
  );
}

function Step({ step, at }: { step: PlanStep; at: number }) {
  const t = words.plan;
  const done = isTicked(at);
  return (
    <li class={done ? 'plan-step done' : 'plan-step'} data-kind={step.kind}>
      <label>
        <input type="checkbox" checked={done} aria-label={t.stepDone(at + 1, engineWords(step.title))} onChange={(e) => tickStep(at, e.currentTarget.checked)} />
        <span class="number" aria-hidden="true">{at + 1}</span>
        <strong>{engineWords(step.title)}</strong>
      </label>
      <Details step={step} />
    </li>
  );
}

export function Steps({ plan }: { plan: Plan }) {
  const t = words.plan;
  if (plan.steps.length === 0) return null;
  const firings = [...new Set(plan.steps.map((s) => s.firing))];
  return (
    <section class="plan-steps">
      <h2>{t.steps}</h2>
      {firings.map((firing) => (
        <div key={firing}>
          {plan.firings > 1 && <h3>{t.firing(firing, plan.firings)}</h3>}
          <ol>{plan.steps.map((step, at) => step.firing === firing && <Step key={at} step={step} at={at} />)}</ol>
        </div>
      ))}
    </section>
  );
}
