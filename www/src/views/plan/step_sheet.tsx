/** The step sheet for the bench: everything of a plan on paper, good without colour. */
import { CoatsBar } from '../../charts/coats_bar';
import { coatsLayout, coatsText } from '../../charts/coats_layout';
import { fixed, momentText } from '../../charts/format';
import type { Plan, PlanStep } from '../../engine/types';
import { current } from '../../state/case/at_hand';
import { photo } from '../../state/desk';
import { differenceDoubt, label, shownNames } from '../../state/stains/planning';
import { isTicked } from '../../state/stains/work';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { limitsText } from './limits';
import { Mix } from './mix';
import { coatsOf, labNumbers } from './said';
import { findingsOf } from './findings';
import { Invented } from './invented';
import { expectTexts, featherText, lookHead, lookText } from './steps';

const BAR_WIDTH = 190;

function Zones({ plan }: { plan: Plan }) {
  const t = words.plan;
  const layout = coatsLayout(plan, BAR_WIDTH);
  return (
    <table class="sheet-zones">
      <thead><tr>{[t.third, t.coatsHead, t.labHead(t.value.from), t.labHead(t.value.to), t.labDoubtHead(t.value.after), words.sheet.deltaE, t.resultRead].map((head) => <th scope="col" key={head}>{head}</th>)}</tr></thead>
      <tbody>
        {plan.zones.map((z) => {
          const bar = layout.bars.find((b) => b.zone === z.zone);
          return (
            <tr key={z.zone}>
              <th scope="row">{words.names.zoneShort[z.zone]}</th>
              <td class="paint-cell">{bar && z.paint.coats > 0 ? <><CoatsBar bar={bar} layout={layout} width={BAR_WIDTH} label="" /><strong>{coatsOf(z.paint.coats)}</strong>{bar.firings.length > 1 && <> ({t.inFirings(bar.firings.map(coatsText).join(' + '))})</>}<Mix bar={bar} /></> : t.nothing}</td>
              <td>{labNumbers(z.from)}</td>
              <td>{labNumbers(z.to)}</td>
              <td>{labNumbers(z.predicted.lab)}<br />{words.sheet.plusMinus(fixed(z.predicted.doubt))}</td>
              <td>{fixed(z.before_delta_e_00)} → {fixed(z.after_delta_e_00)}<br />{words.sheet.plusMinus(fixed(differenceDoubt(z)))}</td>
              <td class="write-in" />
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Row({ step, at, of }: { step: PlanStep; at: number; of: number }) {
  const t = words.plan;
  const feather = featherText(step);
  const expected = expectTexts(step);
  return (
    <li>
      <span class="tick-box">{isTicked(at) && '✓'}</span>
      <div>
        <strong>{at + 1}. {engineWords(step.title)}</strong> {of > 1 && <small>({t.firing(step.firing, of)})</small>}
        <p>
          {engineWords(step.stroke)} {feather && `${t.feather} ${feather}.`} {step.look && <em>{lookHead(step)}: {lookText(step)}</em>} {expected.length > 0 && <b>{t.expect} {expected.join('; ')}</b>}
        </p>
      </div>
    </li>
  );
}

export function StepSheet({ plan }: { plan: Plan }) {
  const t = words.plan;
  const names = shownNames.value;
  const when = momentText(new Date());
  return (
    <section class="step-sheet print-only">
      <header>
        <h1>{t.sheetTitle}{label.value && `: ${label.value}`}</h1>
        {photo.value && <p>{[current.value?.label, words.photo.shown(photo.value.name)].filter(Boolean).join(' · ')}</p>}
        <p>{names && t.fromTo(names.restoration, names.target)}; {t.firings(plan.firings)}; {t.printed(when)}</p>
        <Invented plan={plan} />
      </header>
      <div class="sheet-body">
        <Zones plan={plan} />
        {plan.leave && <p>{engineWords(plan.leave)}</p>}
        <ol class="sheet-steps">{plan.steps.map((step, at) => <Row key={at} step={step} at={at} of={plan.firings} />)}</ol>
        {plan.shortfalls.length > 0 && (
          <div class="together">
            <h2>{t.shortfalls}</h2>
            <ul>{findingsOf(plan.shortfalls).map((f) => <li key={f.code + f.thirds}>{t.oneFinding(f.thirds, f.text)}</li>)}</ul>
          </div>
        )}
        <p><strong>{t.limits.planned}:</strong> {limitsText(plan.limits)}.</p>
        <div class="together">
          <h2>{t.cautions}</h2>
          <ul class="sheet-cautions">{plan.cautions.map((c) => <li key={c}>{engineWords(c)}</li>)}</ul>
          <p>{t.reserve}</p>
        </div>
      </div>
    </section>
  );
}
