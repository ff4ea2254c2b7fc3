/** The learning curve, and the attempts behind it. */
import { dayText, fixed } from '../../charts/format';
import { LearningCurve } from '../../charts/learning_curve';
import { attemptsToJson } from '../../state/practice/exercise_file';
import { learnersOf } from '../../state/practice/exercise_model';
import { exercise } from '../../state/practice/sides';
import { addAttempts, removeAttempt } from '../../state/stains/practice';
import { say } from '../../state/status';
import { words } from '../../words';
import { JSON_TYPES, pickFile, saveText } from '../pick_file';
import { focusOn } from '../focus_on';
import { useSize } from '../use_size';

const HEIGHT_PX = 240;

function Curve() {
  const { ref, width } = useSize<HTMLDivElement>();
  const t = words.practice;
  const learners = learnersOf(exercise.value.attempts, t.nobody);
  const list = learners.map((l) => t.curveItem(l.name, l.left.map((v) => fixed(v)).join(', '))).join(' ');
  return (
    <div ref={ref}>
      {width > 0 && <LearningCurve learners={learners} width={width} height={HEIGHT_PX} label={t.curveLabel(list)} levels={t.levels} attempt={t.attempt} unit={t.unit} />}
    </div>
  );
}

function save(): void {
  const t = words.practice;
  saveText(t.file, attemptsToJson(exercise.value.attempts), 'application/json');
  say(words.status.saved(t.file));
}

export function Attempts() {
  const t = words.practice;
  const { attempts } = exercise.value;
  return (
    <section class="attempts">
      <h2>{t.curve}</h2>
      {attempts.length === 0 ? <p class="hint">{t.none}</p> : <Curve />}
      {attempts.length > 0 && (
        <details>
          <summary id="attempt-list">{t.list(attempts.length)}</summary>
          <ol class="attempt-list" reversed>
            {attempts
              .map((attempt, at) => ({ attempt, at }))
              .reverse()
              .map(({ attempt: { who, base, target, score, at: when }, at }) => (
                <li key={when}>
                  <span>
                    <strong>{t.left(fixed(score.colour))}</strong> {t.row(who || t.nobody, base, target)}
                    <small>{dayText(new Date(when))}</small>
                  </span>
                  <button type="button" aria-label={t.removeOf(at + 1, who || t.nobody)} onClick={() => (removeAttempt(at), focusOn('attempt-list'))}>
                    {t.remove}
                  </button>
                </li>
              ))}
          </ol>
        </details>
      )}
      <div class="chips">
        {attempts.length > 0 && (
          <button type="button" onClick={save}>
            {t.exportAll}
          </button>
        )}
        <button type="button" onClick={() => pickFile({ accept: JSON_TYPES }, (file) => void addAttempts(file, file.name))}>
          {t.importAll}
        </button>
      </div>
    </section>
  );
}
