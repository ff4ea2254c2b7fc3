/** Three words that choose what the pictures show, and the way from now to after painting. */
import { inventedPlan } from '../../state/patient/facts';
import { look, lookAt, looks, painting, type Look } from '../../state/patient/looks';
import { words } from '../../words';

const STEPS: Record<string, number> = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 };

/** Arrows go round and choose. */
function walk(event: KeyboardEvent): void {
  const step = STEPS[event.key];
  if (!step) return;
  event.preventDefault();
  const all = looks.value;
  const next = (all.indexOf(look.value) + step + all.length) % all.length;
  lookAt(all[next]!);
  (event.currentTarget as HTMLElement).querySelectorAll('button')[next]?.focus();
}

const nameOf = (which: Look): string => (which === 'painted' && inventedPlan.value ? words.patient.example : words.patient.choose[which]);

export function Choices() {
  return (
    <div class="patient-choices" role="group" aria-label={words.patient.choice} onKeyDown={walk}>
      {looks.value.map((which) => (
        <button type="button" key={which} aria-pressed={look.value === which} onClick={() => lookAt(which)}>
          {nameOf(which)}
        </button>
      ))}
    </div>
  );
}

/** Now is at its one end, after painting at the other: moving it chooses what is between. */
export function Slide() {
  const t = words.patient.slide;
  if (!looks.value.includes('painted')) return null;
  const at = look.value === 'painted' ? painting.value : 0;
  const slide = (to: number) => {
    lookAt('painted');
    painting.value = to;
  };
  return (
    <label class="patient-slide">
      <span aria-hidden="true">{t.now}</span>
      <input type="range" min={0} max={100} step={5} value={at} aria-label={t.label} aria-valuetext={t.at(at / 100)} onInput={(e) => slide(e.currentTarget.valueAsNumber)} />
      <span aria-hidden="true">{t.after}</span>
    </label>
  );
}
