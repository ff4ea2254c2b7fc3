/** The exercise: which tab is to look like which, and who paints. */
import { taskZones } from '../../state/practice/exercise_model';
import { choiceOf, exercise, options, sideOf, TYPED } from '../../state/practice/sides';
import { planExercise, sayWho, stainless } from '../../state/stains/practice';
import { takeDemo } from '../../state/stains/swatches';
import { showMode } from '../../state/ui';
import { words } from '../../words';
import { pickPhoto } from '../actions';
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

function Stainless() {
  const t = words.practice;
  return (
    <div class="stainless">
      <p class="hint">{t.noStains}</p>
      <div class="chips">
        <button type="button" onClick={() => void takeDemo()}>
          {words.swatches.useDemo}
        </button>
        <button type="button" onClick={() => showMode('swatches')}>
          {words.plan.refused.swatches}
        </button>
      </div>
    </div>
  );
}

export function Task() {
  const t = words.practice;
  const [base, target] = [sideOf('base'), sideOf('target')];
  const same = choiceOf('base') === choiceOf('target') && choiceOf('base') !== TYPED;
  const ready = base && target && !same && taskZones(base, target).length > 0;
  return (
    <section class="task">
      <h2>{t.task}</h2>
      {options.value.length === 0 && <p class="hint">{t.noRegions}</p>}
      <div class="sides-of-task">
        <SideChoice role="base" label={t.base} />
        <SideChoice role="target" label={t.target} />
      </div>
      {same && <p class="hint">{t.chooseTwo}</p>}
      <Who />
      {stainless.value && <Stainless />}
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
