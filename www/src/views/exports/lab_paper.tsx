/** For the laboratory's bench, on paper: target and restoration in large figures, and what is to be painted. */
import { fixed, momentText, percent } from '../../charts/format';
import type { Series } from '../../charts/series';
import { THIRDS, type GradientPoint } from '../../engine/types';
import { current } from '../../state/case/at_hand';
import { photo, scene } from '../../state/desk';
import { reading } from '../../state/reading';
import { sheet } from '../../state/sheet';
import { isTold } from '../../state/sheet_model';
import { shownPlan } from '../../state/stains/planning';
import { words } from '../../words';
import { PrintedNotes } from '../lab/notes';
import { PrintedPhoto } from '../lab/printed_photo';
import { StepSheet } from '../plan/step_sheet';

/** Places along the axis that are given in figures. */
const PLACES = [0, 0.25, 0.5, 0.75, 1];

const nearestTo = (at: number, gradient: readonly GradientPoint[]): GradientPoint | undefined =>
  gradient.reduce<GradientPoint | undefined>((best, point) => (!best || Math.abs(point.at - at) < Math.abs(best.at - at) ? point : best), undefined);

function Thirds({ series }: { series: readonly Series[] }) {
  const t = words.sheet;
  const rows = sheet.value?.rows ?? [];
  return (
    <table class="lab-thirds">
      <thead><tr><th scope="col">{words.numbers.zone}</th>{series.map((s) => <th scope="col" key={s.id}>{s.name}</th>)}<th scope="col">{t.difference}</th></tr></thead>
      <tbody>
        {THIRDS.map((zone) => {
          const { advice, nearest } = rows.find((row) => row.zone === zone) ?? {};
          return (
            <tr key={zone}>
              <th scope="row">{words.names.zoneShort[zone]}</th>
              {series.map(({ id, zones }) => {
                const z = zones[zone];
                return <td key={id}>{z ? <><b>{words.sheet.valueUnit} {fixed(z.lab[0])}</b> <b>{t.chromaShort(fixed(z.chroma))}</b> <b>{t.hueShort(fixed(z.hue_deg, 0))}</b><br />{words.exports.sheet.ab(fixed(z.lab[1]), fixed(z.lab[2]))} {t.doubtShort(fixed(z.doubt))}</> : t.noNumber}</td>;
              })}
              <td>
                {advice && <><b>{t.deltaE} {fixed(advice.delta_e_00)}</b> {t.plusMinus(fixed(advice.doubt))}<br />{isTold(advice) ? words.names.said(scene.value, advice.words) : t.untold}</>}
                {nearest && <p>{t.nearest}: {words.names.tab(scene.value, nearest.rung.name)}, {t.deltaE} {fixed(nearest.rung.delta_e_00)}</p>}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Axis({ series }: { series: readonly Series[] }) {
  return (
    <table class="lab-axis">
      <thead><tr><th scope="col">{words.exports.sheet.place}</th>{series.map((s) => <th scope="col" key={s.id}>{s.name}</th>)}</tr></thead>
      <tbody>
        {PLACES.map((at) => (
          <tr key={at}>
            <th scope="row">{percent(at)}</th>
            {series.map(({ id, gradient }) => {
              const point = nearestTo(at, gradient);
              return <td key={id}>{point && <><b>{words.sheet.valueUnit} {fixed(point.lab[0])}</b> {words.sheet.chromaShort(fixed(Math.hypot(point.lab[1], point.lab[2])))}</>}</td>;
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

export function LabPaper() {
  const t = words.exports;
  const now = reading.value;
  const model = sheet.value;
  if (!photo.value || !now || !model) return null;
  const { checks, light } = now.report;
  const { severity, fine } = words.sheet.checks;
  const plan = shownPlan.value;
  return (
    <section class="lab-paper print-only">
      <h1>{t.sheet.title(current.value?.label ?? '')}</h1>
      <p>{words.sheet.printed(words.photo.shown(photo.value.name), momentText(new Date()))}</p>
      <h2>{t.sheet.thirds}</h2>
      <Thirds series={model.series} />
      <div class="lab-beside">
        <div>
          <h2>{t.sheet.axis}</h2>
          <Axis series={model.series} />
          <PrintedNotes />
        </div>
        <div><PrintedPhoto /></div>
      </div>
      <h2>{words.sheet.checks.title}</h2>
      <ul>{checks.length ? checks.map((c, i) => <li key={i}>{t.check(severity[c.severity], words.names.said(scene.value, c.text))}</li>) : <li>{fine}</li>}</ul>
      {light && <p>{t.sheet.stands}: {words.trust.rungs[light.trust]}. {words.names.said(scene.value, light.words)}</p>}
      <p>{t.units}</p>
      <p>{words.sheet.disclaimer}</p>
      {plan && <StepSheet plan={plan} />}
    </section>
  );
}
