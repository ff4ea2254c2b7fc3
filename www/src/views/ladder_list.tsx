/** The list behind a lane: every tab with its difference in numbers and words. */
import { fixed } from '../charts/format';
import type { Ladder, Rung } from '../engine/types';
import { scene } from '../state/desk';
import { words } from '../words';
import { engineWords } from '../words/engine';

function Row({ rung, nearest }: { rung: Rung; nearest: boolean }) {
  const t = words.sheet;
  return (
    <tr>
      <th scope="row">{words.names.tab(scene.value, rung.name)}</th>
      <td class="number">{fixed(rung.delta_e_00)}</td>
      <td>
        {engineWords(rung.words)}; {t.verdict[rung.verdict]}
        {rung.alike && !nearest ? `; ${t.ladder.alike}` : ''}
      </td>
      <td class="number">{fixed(rung.delta_l)}</td>
      <td class="number">{fixed(rung.delta_c)}</td>
      <td class="number">{fixed(rung.delta_h)}</td>
      <td>
        {t.ladder.bases[rung.basis]}
        {rung.whole_tab ? `, ${t.ladder.wholeTab}` : ''}
      </td>
    </tr>
  );
}

export function LadderList({ ladder }: { ladder: Ladder }) {
  const t = words.sheet.ladder;
  const heads = [t.name, words.sheet.deltaE, t.words, t.l, t.c, t.h, t.basis];
  return (
    <details class="ladder-list">
      <summary>{t.zoneList(words.names.zone[ladder.zone])}</summary>
      {ladder.note && <p>{words.names.said(scene.value, ladder.note)}</p>}
      <div class="scroll-x" tabIndex={0} role="region" aria-label={t.zoneList(words.names.zone[ladder.zone])}>
        <table>
          <thead>
            <tr>
              {heads.map((h) => (
                <th scope="col" key={h}>
                  {h}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {ladder.tabs.map((rung, i) => (
              <Row key={`${rung.name} ${rung.basis}`} rung={rung} nearest={i === 0} />
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
