/** How close and how even an exercise came: what to do differently first, then the figures. */
import { fixed, percent } from '../../charts/format';
import type { Attempt } from '../../state/practice/exercise';
import { words } from '../../words';
import { engineWords } from '../../words/engine';

function Figure({ name, value, hint }: { name: string; value: string | undefined; hint: string }) {
  return (
    <div class="figure">
      <dt>{name}</dt>
      <dd>
        <strong class={value === undefined ? undefined : 'big'}>{value ?? words.practice.unknown}</strong>
        <small>{hint}</small>
      </dd>
    </div>
  );
}

const maybe = (value: number | undefined): string | undefined => (value === undefined ? undefined : fixed(value));

export function Score({ attempt: { score, request } }: { attempt: Attempt }) {
  const t = words.practice;
  const doubt = Math.max(0, ...request.zones.map((z) => z.doubt));
  return (
    <div class="score">
      <p class="say-first">{engineWords(score.words)}</p>
      <dl class="figures">
        <Figure name={t.colour} value={fixed(score.colour)} hint={`${t.colourHint}, ${words.passes.plusMinus(fixed(doubt))}`} />
        <Figure name={t.gradient} value={maybe(score.gradient)} hint={t.gradientHint} />
        <Figure name={t.evenness} value={maybe(score.evenness)} hint={t.evennessHint} />
        <Figure name={t.way} value={percent(score.way)} hint={t.wayHint} />
      </dl>
      <table class="score-table">
        <caption>{t.thirds}</caption>
        <thead>
          <tr>
            {t.heads.map((head) => (
              <th scope="col" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {score.zones.map((z) => (
            <tr key={z.zone} data-zone={z.zone}>
              <th scope="row">{words.names.zoneShort[z.zone]}</th>
              <td class="number">{fixed(z.start_delta_e_00)}</td>
              <td class="number">
                <strong>{fixed(z.left_delta_e_00)}</strong>
              </td>
              <td>
                {words.sheet.verdict[z.verdict]}
                {z.words && `: ${engineWords(z.words)}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
