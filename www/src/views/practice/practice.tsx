/** Practice: one tab turned into another and scored, and how the attempts get nearer. */
import type { Plan } from '../../engine/types';
import { choiceOf, exercise, options, sideOf, TYPED } from '../../state/practice/sides';
import { taskZones } from '../../state/practice/exercise_model';
import { notPainted, planExercise, sayWho, scoreResult } from '../../state/stains/practice';
import { words } from '../../words';
import { pickPhoto } from '../actions';
import { Attempts } from './attempts';
import { Score } from './score';
import { SideChoice } from './side_choice';

function Who() {
  const { who, attempts } = exercise.value;
  const names = [...new Set(attempts.map((a) => a.who))].filter(Boolean);
  return (
    <label class="who">
      {words.practice.who}
      <input value={who} maxLength={60} autocomplete="off" list="practice-names" onInput={(e) => sayWho(e.currentTarget.value)} />
      <datalist id="practice-names">
        {names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
    </label>
  );
}

function Task() {
  const t = words.practice;
  const [base, target] = [sideOf('base'), sideOf('target')];
  const same = choiceOf('base') === choiceOf('target') && choiceOf('base') !== TYPED;
  const ready = base && target && !same && taskZones(base, target).length > 0;
  return (
    <section class="task">
      <h2>{t.task}</h2>
      {options.value.length === 0 && <p class="hint">{t.noRegions}</p>}
      <div class="sides-of-task">
        <SideChoice role="base" label={t.base} mayType={true} />
        <SideChoice role="target" label={t.target} mayType={true} />
      </div>
      {same && <p class="hint">{t.chooseTwo}</p>}
      <Who />
      <div class="chips">
        <button type="button" class={exercise.value.task ? undefined : 'primary'} disabled={!ready} onClick={() => void planExercise()}>
          {exercise.value.task ? t.planAgain : t.plan}
        </button>
        <button type="button" onClick={pickPhoto}>
          {words.menu.open}
        </button>
      </div>
    </section>
  );
}

function Steps({ plan }: { plan: Plan | null }) {
  if (!plan) return <p class="hint">{words.practice.noStains}</p>;
  if (plan.leave) return <p>{plan.leave}</p>;
  return (
    <>
      <ol class="practice-steps">
        {plan.steps.map((step, i) => (
          <li key={i}>
            <strong>{step.title}</strong> {step.stroke}
          </li>
        ))}
      </ol>
      {plan.shortfalls.map((s, i) => (
        <p key={i} class="hint">
          {s.text}
        </p>
      ))}
    </>
  );
}

function Result() {
  const t = words.practice;
  const { task, attempts } = exercise.value;
  if (!task) return null;
  const last = attempts.at(-1);
  const ready = sideOf('got') && sideOf('now') && choiceOf('got') !== choiceOf('now') && !notPainted.value;
  return (
    <section class="result">
      <h2>{t.from(task.base.name, task.target.name)}</h2>
      <details class="how-to-paint" open={!last}>
        <summary>{t.steps}</summary>
        <Steps plan={task.plan} />
      </details>
      <h3>{t.result}</h3>
      <p class="hint">{t.resultHow}</p>
      <div class="sides-of-task">
        <SideChoice role="got" label={t.got} mayType={false} />
        <SideChoice role="now" label={t.target} mayType={false} />
      </div>
      {notPainted.value && <p class="hint">{t.isBase}</p>}
      <button type="button" class="primary" disabled={!ready} onClick={() => void scoreResult()}>
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
