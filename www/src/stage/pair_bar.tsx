/** The pair on the stage: which photo is shown, and laying one over the other by hand. */
import { scene } from '../state/desk';
import { adjust, glareProblem, lay, layFound, layAutomatically, LIMITS, paired, putLay, showPair } from '../state/pair';
import type { Lay } from '../state/lay';
import { adjusting, PAIR_VIEWS, pairView } from '../state/ui';
import { Stepper } from '../views/stepper';
import { words } from '../words';

export function PairButtons() {
  if (!paired.value) return null;
  const t = words.pair;
  return (
    <div class="pair-buttons">
      <div class="segments" role="group" aria-label={t.viewsLabel} title={t.viewsLabel}>
        {PAIR_VIEWS.map((name) => (
          <button type="button" key={name} aria-pressed={name === pairView.value} onClick={() => showPair(name)}>
            {t.views[name]}
          </button>
        ))}
      </div>
      <button type="button" title={t.adjustLong} aria-pressed={adjusting.value} onClick={() => adjust(!adjusting.value)}>
        {t.adjust}
      </button>
    </div>
  );
}

/** Shares are typed in percent; everything else as it is. */
const FACTOR: Record<keyof Lay, number> = { x_px: 1, y_px: 1, turn_deg: 1, scale: 100 };

export function LayBar() {
  const t = words.pair;
  const noMap = glareProblem.value !== null || !layFound.value;
  if (pairView.value === 'glare' && noMap && !adjusting.value) return <p class="stage-note">{t.noMap}</p>;
  if (!adjusting.value || !paired.value) return null;
  return (
    <div class="selection-bar lay-bar" role="group" aria-label={t.adjustTitle}>
      <div class="steppers">
        {(Object.keys(FACTOR) as (keyof Lay)[]).map((key) => {
          const { min, max, step } = LIMITS[key];
          const by = FACTOR[key];
          return (
            <Stepper
              key={key}
              value={lay.value[key] * by}
              label={t.fields[key]}
              min={min * by}
              max={max * by}
              step={step * by}
              put={(value) => putLay({ [key]: value / by })}
            />
          );
        })}
      </div>
      <p class="hint">{t.adjustHint}</p>
      {scene.value.pair_transform && (
        <button type="button" onClick={layAutomatically}>
          {t.auto}
        </button>
      )}
      <button type="button" class="primary" onClick={() => adjust(false)}>
        {t.done}
      </button>
    </div>
  );
}
