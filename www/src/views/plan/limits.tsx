/** What a plan may use: coats, firings, stains. In words when folded. */
import { signal } from '@preact/signals';
import { coatsText } from '../../charts/coats_layout';
import { usableStains } from '../../state/stains/book';
import { allowStain, changeLimits, limits } from '../../state/stains/plan_inputs';
import { USUAL_LIMITS } from '../../state/stains/stains_doc';
import { book, work } from '../../state/stains/work';
import { words } from '../../words';
import { Stepper } from '../stepper';
import { Switch } from '../switch';

/** Folded or not, whatever is looked at in between. */
const unfolded = signal(false);

export function limitsText(now = limits.value): string {
  return words.plan.limits.inWords(now, coatsText(now.coats_per_firing));
}

function Chosen() {
  const names = usableStains(book.value);
  const { stains } = limits.value;
  if (names.length < 2) return null;
  const used = (name: string) => stains.length === 0 || stains.includes(name);
  const last = names.filter(used).length === 1;
  return (
    <div>
      <h3 id="stains-allowed">{words.plan.limits.stains}</h3>
      <div class="chips" role="group" aria-labelledby="stains-allowed">
        {names.map((name) => (
          <button type="button" key={name} aria-pressed={used(name)} onClick={() => allowStain(name, !used(name))}>
            {name}
          </button>
        ))}
      </div>
      {last && <p class="hint">{words.plan.limits.lastStays}</p>}
    </div>
  );
}

export function Limits() {
  const t = words.plan.limits;
  const now = limits.value;
  return (
    <details class="limits" open={unfolded.value} onToggle={(e) => (unfolded.value = e.currentTarget.open)}>
      <summary>
        <strong>{work.value ? t.next : t.title}</strong> <span>{limitsText()}</span>
      </summary>
      <div class="steppers">
        <Stepper value={now.coats_per_firing} label={t.coats} min={0.25} max={6} step={0.25} large={1} put={(coats_per_firing) => changeLimits({ coats_per_firing }, 'coats per firing')} />
        <Stepper value={now.firings} label={t.firings} min={1} max={3} step={1} whole put={(firings) => changeLimits({ firings }, 'firings')} />
        <Stepper value={now.stains_per_mix} label={t.mix} min={1} max={2} step={1} whole put={(stains_per_mix) => changeLimits({ stains_per_mix }, 'stains per mix')} />
      </div>
      <Chosen />
      <Switch on={now.may_lighten} text={t.lighten} hint={t.lightenHint} turn={(may_lighten) => changeLimits({ may_lighten })} />
      <Switch on={now.foundation} text={t.foundation} turn={(foundation) => changeLimits({ foundation })} />
      <button type="button" onClick={() => changeLimits(USUAL_LIMITS)}>{t.reset}</button>
    </details>
  );
}
