/** The plan on the axis: pictures, coats and what will be left, third by third, cervical on top. */
import { CoatsBar } from '../../charts/coats_bar';
import { coatsLayout, coatsText, type CoatsLayout } from '../../charts/coats_layout';
import { fixed } from '../../charts/format';
import { THIRDS, type Plan, type ZonePlan } from '../../engine/types';
import { differenceDoubt } from '../../state/stains/planning';
import { predicted, onPhoto, pictureProblem, planRegion, showOnPhoto } from '../../state/stains/plan_pictures';
import { compared } from '../../state/stains/comparison';
import { zoomToRegions } from '../../stage/controls';
import { work } from '../../state/stains/work';
import { photo } from '../../state/desk';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { Term } from '../help_term';
import { Switch } from '../switch';
import { useSize } from '../use_size';
import { Divider } from './divider';
import { PlanPictures } from './pictures';
import { Mix } from './mix';
import { coatsOf, paintText } from './said';

function Coats({ zone, layout, width }: { zone: ZonePlan; layout: CoatsLayout; width: number }) {
  const t = words.plan;
  const bar = layout.bars.find((b) => b.zone === zone.zone);
  if (!bar || zone.paint.coats === 0) return <p class="none">{t.nothing}</p>;
  return (
    <>
      <CoatsBar bar={bar} layout={layout} width={width} label={t.bar(words.names.zone[zone.zone], paintText(zone.paint))} />
      <p class="coats-text">
        <strong>{coatsOf(zone.paint.coats)}</strong>
        {bar.firings.length > 1 && <small> {t.inFirings(bar.firings.map(coatsText).join(' + '))}</small>}
      </p>
      <Mix bar={bar} />
    </>
  );
}

/** ΔE00 that half of the people see, and that half would correct (Paravina et al. 2015). */
const THRESHOLDS = [0.8, 1.8];

function Result({ zone }: { zone: ZonePlan }) {
  const after = zone.after_delta_e_00;
  const most = after + differenceDoubt(zone);
  return (
    <div class="difference" data-before={zone.before_delta_e_00} data-after={zone.after_delta_e_00}>
      <p class="big">
        <span class="was">{fixed(zone.before_delta_e_00)}</span> → {fixed(zone.after_delta_e_00)} <small>{words.sheet.deltaE} {words.sheet.plusMinus(fixed(differenceDoubt(zone)))}</small>
      </p>
      {THRESHOLDS.some((t) => after < t && most >= t) && <p class="up-to">{words.plan.upTo(fixed(most))}</p>}
      <p class="verdict">{words.sheet.verdict[zone.verdict]}</p>
      <p>{words.plan.still(engineWords(zone.words))}</p>
    </div>
  );
}

function show(on: boolean): void {
  showOnPhoto(on);
  const ids = [planRegion.value, compared.value?.target].filter((id) => id != null);
  // On a phone the stage gets its size first.
  if (on) setTimeout(() => zoomToRegions(ids), 60);
}

function PictureTools() {
  const t = words.plan;
  if (pictureProblem.value && planRegion.value) return <p class="hint">{t.noPicture} {pictureProblem.value}</p>;
  if (work.value && photo.value && !planRegion.value) return <p class="hint">{t.otherPhoto}</p>;
  if (!predicted.value || !planRegion.value) return null;
  return (
    <div class="picture-tools">
      <Divider />
      <Switch on={onPhoto.value} text={t.onPhoto} turn={show} />
    </div>
  );
}

export function PlanSheet({ plan }: { plan: Plan }) {
  const t = words.plan;
  const { ref, width } = useSize<HTMLDivElement>();
  const layout = coatsLayout(plan, width);
  return (
    <section class="axis-sheet plan-sheet">
      <h2 class="unseen">{t.sheet}</h2>
      {plan.leave && <p class="leave"><strong>{t.leave}.</strong> {engineWords(plan.leave)}</p>}
      <div class="sheet-grid plan-grid pictures-3">
        <div class="teeth-head teeth-row">
          <span class="gutter" />
          {(['now', 'predicted', 'target'] as const).map((part) => <div key={part} class="picture-head"><strong>{t.heads[part]}</strong></div>)}
        </div>
        <div class="teeth teeth-row">
          <div class="gutter" aria-label={words.sheet.thirds} role="group">{THIRDS.map((zone) => <span key={zone}>{words.names.zoneShort[zone]}</span>)}</div>
          <PlanPictures plan={plan} />
        </div>
        <div class="head" data-column="coats"><h3>{t.coatsHead}</h3><small>{t.coatsHint}</small></div>
        <div class="head" data-column="result"><h3><Term name="deltaE">{t.resultHead}</Term></h3><small>{t.resultHint}</small></div>
        <div class="coats-width" ref={ref} />
        {plan.zones.map((zone) => (
          <div key={zone.zone} class="third" data-zone={zone.zone} role="group" aria-label={words.names.zone[zone.zone]}>
            <div class="coats"><Coats zone={zone} layout={layout} width={width} /></div>
            <Result zone={zone} />
          </div>
        ))}
        <div class="hairlines" aria-hidden="true" />
      </div>
      <PictureTools />
      <p class="strip-note"><Term name="doubt">{words.help.terms.shown.doubt}</Term> {t.plusMinus}</p>
    </section>
  );
}
