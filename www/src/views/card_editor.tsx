/** What colour the card is known to have. */
import type { Card, Lab } from '../engine/types';
import { changeScene, scene } from '../state/desk';
import { withCard, withSecondCard } from '../state/scene_edit';
import { stepKey } from '../state/shapes';
import { hold } from '../state/steps';
import { select } from '../state/ui';
import { words } from '../words';
import { NumberField } from './number_field';

type Known = 'unknown' | 'lab' | 'reflectance' | 'steps';

const knownOf = (card: Card): Known =>
  card.steps?.length ? 'steps' : card.lab ? 'lab' : card.reflectance != null ? 'reflectance' : 'unknown';

/** The same card with its colour known another way; outlines are kept. */
function as(card: Card, known: Known): Card {
  const lab: Lab = card.lab ?? card.steps?.[0]?.lab ?? [50, 0, 0];
  const outline = card.outline.length ? card.outline : (card.steps?.[0]?.outline ?? []);
  if (known === 'steps') return { outline: [], steps: [{ outline, lab }] };
  if (known === 'lab') return { outline, lab };
  if (known === 'reflectance') return { outline, reflectance: card.reflectance ?? 0.18 };
  return { outline };
}

function LabFields({ lab, what, put }: { lab: Lab; what: string; put: (lab: Lab) => void }) {
  const t = words.shape.card;
  const names = [t.l, t.a, t.b] as const;
  return (
    <div class="fields">
      {lab.map((v, i) => (
        <NumberField
          key={names[i]}
          value={v}
          visible={names[i]!}
          label={`${what} ${names[i]}`}
          step={0.1}
          min={i === 0 ? 1 : -30}
          max={i === 0 ? 100 : 30}
          put={(n) => put(lab.map((old, j) => (j === i ? n : old)) as Lab)}
        />
      ))}
    </div>
  );
}

/** Of the card, or of the card at its second place, which has one patch. */
export function CardEditor({ which }: { which: 'card' | 'second_card' }) {
  const card = scene.value[which];
  const second = which === 'second_card';
  if (!card) return null;
  const t = words.shape.card;
  const known = knownOf(card);
  const put = (next: Card, run: string | null = null) => changeScene(words.edits.cardColour, (s) => (second ? withSecondCard(s, next) : withCard(s, next)), run);
  const putKnown = (value: Known) => {
    put(as(card, value));
    select(value === 'steps' ? stepKey(0) : second ? 'second' : 'card');
  };
  const choices: [Known, string][] = [['unknown', t.unknown], ['lab', t.lab], ['reflectance', t.reflectance]];
  if (!second) choices.push(['steps', t.steps]);
  const steps = card.steps ?? [];
  return (
    <fieldset class="card-colour">
      <legend>{t.title}</legend>
      {choices.map(([value, text]) => (
        <label key={value} class="radio">
          <input type="radio" name="card-colour" checked={known === value} onChange={() => putKnown(value)} />
          {text}
        </label>
      ))}
      {known === 'lab' && card.lab && <LabFields lab={card.lab} what={t.title} put={(lab) => put({ ...card, lab }, 'card lab')} />}
      {known === 'reflectance' && (
        <NumberField
          value={(card.reflectance ?? 0.18) * 100}
          visible={t.percent}
          label={t.percent}
          min={1}
          max={100}
          step={0.1}
          put={(n) => put({ ...card, reflectance: n / 100 }, 'card reflectance')}
        />
      )}
      {steps.map((step, i) => (
        <div key={i} class="card-step">
          <strong>{t.stepTitle(i + 1)}</strong>
          <LabFields
            lab={step.lab}
            what={t.stepTitle(i + 1)}
            put={(lab) => put({ ...card, steps: steps.map((s, j) => (j === i ? { ...s, lab } : s)) }, `card step ${i}`)}
          />
        </div>
      ))}
      {known === 'steps' && (
        <button type="button" onClick={() => hold('step')}>
          {t.addStep}
        </button>
      )}
      {known !== 'unknown' && <p class="hint">{t.range}</p>}
    </fieldset>
  );
}
