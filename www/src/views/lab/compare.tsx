/** Comparing across photos: below the tray, for the laboratory at a desk. */
import { useEffect } from 'preact/hooks';
import { fixed } from '../../charts/format';
import { compareProblem, differences, openOnes, planFromComparison, sides, startCompare } from '../../state/compare/compare';
import { cardsOf } from '../../state/compare/cards';
import { inOnePhoto } from '../../state/compare/compare_model';
import { work } from '../../state/stains/work';
import { words } from '../../words';
import { CompareChoice } from './compare_choice';
import { Reasons, reasonsNow } from './compare_reasons';
import { CompareSheet } from './compare_sheet';
import type { Both } from './compare_teeth';

/** What has to be known of the numbers: whether they share light and card. */
function Standing({ both: { restoration, target } }: { both: Both }) {
  const t = words.compare;
  if (inOnePhoto(restoration, target)) return <p class="standing">{t.inside}</p>;
  const cards = cardsOf(restoration.of.made.scene, target.of.made.scene);
  return (
    <div class="standing">
      <p>{t.across}</p>
      {cards !== 'same' && <p class="cards">{t.cards.texts[cards]}</p>}
    </div>
  );
}

function PlanFrom() {
  const t = words.compare;
  const doubts = [...differences.value].map(([zone, { doubt }]) => t.planDoubt(words.names.zone[zone], fixed(doubt ?? 0)));
  if (doubts.length === 0 || compareProblem.value) return null;
  return (
    <div class="compare-plan">
      <button type="button" class="primary" aria-describedby="compare-plan-hint" onClick={planFromComparison}>
        {t.plan}
      </button>
      <p class="hint" id="compare-plan-hint">
        {t.planHint(doubts.join(', '))} {work.value && t.planWork}
      </p>
    </div>
  );
}

export function CompareView() {
  useEffect(startCompare, []);
  const t = words.compare;
  const photos = openOnes.value;
  if (photos.length === 0) return null;
  const { restoration, target } = sides.value;
  const both = restoration && target ? { restoration, target } : null;
  const reasons = reasonsNow();
  const untrusted = reasons.some((r) => !r.waits);
  const outlined = photos.some((p) => p.made.scene.regions.length > 0);
  return (
    <section class="compare" aria-labelledby="compare-title">
      <h2 id="compare-title">{t.title}</h2>
      <p class="hint">{photos.length < 2 ? t.more : t.hint}</p>
      {outlined ? <CompareChoice /> : <p class="waiting">{t.nothing}</p>}
      {/* Not even pictures: what must not be trusted is not for the eye either. */}
      {untrusted && <Reasons reasons={reasons.filter((r) => !r.waits)} />}
      {both && !untrusted && <CompareSheet both={both} waiting={reasons} />}
      {both && !untrusted && <Standing both={both} />}
      {both && !untrusted && <PlanFrom />}
    </section>
  );
}
