/** Comparing across photos: below the tray, for the laboratory at a desk. */
import { useEffect } from 'preact/hooks';
import { fixed } from '../../charts/format';
import { compareProblem, differences, openOnes, planFromComparison, sides, startCompare } from '../../state/compare/compare';
import { cardsOf } from '../../state/compare/cards';
import { inOnePhoto, isSuspected, rungsApart, SIDES } from '../../state/compare/compare_model';
import { work } from '../../state/stains/work';
import { words } from '../../words';
import { CompareChoice } from './compare_choice';
import { lookAt, Reasons, reasonsNow } from './compare_reasons';
import { CompareSheet } from './compare_sheet';
import { nameOf, photoOf, type Both } from './compare_teeth';

/** What has to be known of the numbers: whether they share light and card. */
function Standing({ both: { restoration, target } }: { both: Both }) {
  const t = words.compare;
  if (inOnePhoto(restoration, target)) return <p class="standing">{t.inside}</p>;
  const cards = cardsOf(restoration.of.made.scene, target.of.made.scene);
  const rungs = rungsApart(restoration, target)?.map((rung) => words.trust.rungs[rung]);
  return (
    <div class="standing">
      <p>{t.across}</p>
      {rungs && <p class="cards rungs-apart">{t.rungs(photoOf(restoration), rungs[0]!, photoOf(target), rungs[1]!)}</p>}
      {cards !== 'same' && <p class="cards">{t.cards.texts[cards]}</p>}
    </div>
  );
}

/** What the search took for the restoration, until it is answered. */
function Suspected({ both }: { both: Both }) {
  const t = words.compare;
  return SIDES.map((role) => both[role]).filter(isSuspected).map((side) => (
    <div key={side.of.photo.handle} class="compare-suspected" role="status">
      <p>{t.suspected(nameOf(side), photoOf(side))} {t.noPlanYet}</p>
      <button type="button" onClick={() => void lookAt(side)}>{t.answer(photoOf(side))}</button>
    </div>
  ));
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
  const both = photos.length > 1 && restoration && target ? { restoration, target } : null;
  const reasons = reasonsNow();
  const untrusted = reasons.some((r) => !r.waits);
  const regions = photos.reduce((n, p) => n + p.made.scene.regions.length, 0);
  // Inside one photo its reading compares already.
  const choosable = regions > 0 && photos.length > 1;
  return (
    <section class="compare" aria-labelledby="compare-title">
      <h2 id="compare-title">{t.title}</h2>
      <p class="hint">{photos.length < 2 ? t.more : t.hint}</p>
      {choosable && <CompareChoice />}
      {regions === 0 && <p class="waiting">{t.nothing}</p>}
      {both && <Suspected both={both} />}
      {/* Not even pictures: what must not be trusted is not for the eye either. */}
      {untrusted && <Reasons reasons={reasons.filter((r) => !r.waits)} />}
      {both && !untrusted && <CompareSheet both={both} waiting={reasons} />}
      {both && !untrusted && <Standing both={both} />}
      {both && !untrusted && !SIDES.some((role) => isSuspected(both[role])) && <PlanFrom />}
    </section>
  );
}
