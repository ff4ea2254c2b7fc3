/** Several grey steps were found on the card: their printed values can be typed; none is assumed. */
import { useSignal } from '@preact/signals';
import { change, doc, scene } from '../state/desk';
import { stepsTyped, withSteps, type StepCells, type StepFault } from '../state/card_steps';
import { withCard } from '../state/scene_edit';
import { stepKey } from '../state/shapes';
import { select } from '../state/ui';
import { words } from '../words';

export function FoundSteps() {
  const { cardSteps, ...rest } = doc.value.proposal;
  const cells = useSignal<StepCells[]>([]);
  const fault = useSignal<StepFault | null>(null);
  if (!cardSteps || !scene.value.card || scene.value.card.steps?.length) return null;
  const t = words.found.cardSteps;
  const axes = [words.shape.card.l, words.shape.card.a, words.shape.card.b];
  const cellsOf = (i: number): StepCells => cells.value[i] ?? ['', '', ''];
  const type = (i: number, axis: number, text: string) => {
    cells.value = cardSteps.map((_, j) => (j === i ? (cellsOf(i).map((old, k) => (k === axis ? text : old)) as unknown as StepCells) : cellsOf(j)));
  };
  const use = (event: Event) => {
    event.preventDefault();
    const steps = stepsTyped(cardSteps, cells.value);
    fault.value = typeof steps === 'string' ? steps : null;
    if (typeof steps === 'string') return;
    change(words.edits.stepValues, { scene: withCard(scene.value, withSteps(steps)), proposal: rest });
    select(stepKey(0));
  };
  return (
    <form class="found-steps" onSubmit={use} noValidate>
      <h3>{t.title(cardSteps.length)}</h3>
      <p class="hint">{t.why}</p>
      {cardSteps.map((_, i) => (
        <div key={i} class="card-step">
          <strong>{t.step(i + 1, cardSteps.length)}</strong>
          <div class="fields">
            {axes.map((name, axis) => (
              <label key={name} class="number-field">
                {name}
                <input inputMode="text" autocomplete="off" aria-label={`${t.step(i + 1, cardSteps.length)} ${name}`} value={cellsOf(i)[axis]} onInput={(e) => type(i, axis, e.currentTarget.value)} />
              </label>
            ))}
          </div>
        </div>
      ))}
      <p role="status">{fault.value && (fault.value === 'few' ? t.few : t.range)}</p>
      <button type="submit">{t.use}</button>
    </form>
  );
}
