/** Practice: one tab turned into another and scored, and how the attempts get nearer. */
import type { Plan } from '../../engine/types';
import { choiceOf, exercise, TYPED } from '../../state/practice/sides';
import { lastAttempt } from '../../state/practice/exercise_model';
import { notPainted, scoreResult, toScore } from '../../state/stains/practice';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { Cautions } from '../plan/beside';
import { Attempts } from './attempts';
import { Score } from './score';
import { SideChoice } from './side_choice';
import { Task } from './task';

function Steps({ plan }: { plan: Plan | null }) {
  if (!plan) return <p class="hint">{words.practice.noPlan}</p>;
  return (
    <>
      {plan.leave && <p>{engineWords(plan.leave)}</p>}
      <ol class="practice-steps">
        {plan.steps.map((step, i) => (
          <li key={i}>
            <strong>{engineWords(step.title)}</strong> {engineWords(step.stroke)}
          </li>
        ))}
      </ol>
      {plan.shortfalls.map((s, i) => (
        <p key={i} class="hint">
          {engineWords(s.text)}
        </p>
      ))}
      <Cautions plan={plan} />
    </>
  );
}

function Result() {
  const t = words.practice;
  const { task } = exercise.value;
  if (!task) return null;
  const last = lastAttempt(exercise.value);
  const same = choiceOf('got') === choiceOf('now') && choiceOf('got') !== TYPED;
  return (
    <section class="result">
      <h2>{t.from(task.base.name, task.target.name)}</h2>
      {task.plan?.demo && <p class="demo-line">{words.plan.demo}</p>}
      <details class="how-to-paint" open={!last}>
        <summary>{t.steps}</summary>
        <Steps plan={task.plan} />
      </details>
      <h3>{t.result}</h3>
      <p class="hint">{t.resultHow}</p>
      <div class="sides-of-task">
        <SideChoice role="got" label={t.got} />
        <SideChoice role="now" label={t.target} />
      </div>
      {notPainted.value && <p class="hint why-not">{notPainted.value}</p>}
      {same && <p class="hint">{t.chooseTwo}</p>}
      <button type="button" class="primary" disabled={!toScore.value || same} onClick={() => void scoreResult()}>
        {t.score}
      </button>
      {last && <Score attempt={last} />}
    </section>
  );
}

export function PracticeView() {
  return (
    <section class="panel practice" id="practice" tabIndex={-1} aria-label={words.practice.title}>
      <h2>{words.practice.title}</h2>
      <p class="hint">{words.practice.how}</p>
      <Task />
      <Result />
      <Attempts />
    </section>
  );
}
