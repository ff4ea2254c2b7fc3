/** Whether the photo tells its own tabs apart as the guide does: a table, the worst pair first. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { fixed } from '../../charts/format';
import { checkProblem, pairs, rows, startTabsCheck } from '../../state/compare/tabs_check';
import { anchored, toldAsGuide, type TabRow } from '../../state/compare/tabs_check_model';
import { guide } from '../../state/desk';
import { reading } from '../../state/reading';
import { words } from '../../words';
import { Depth } from '../depth';

/** As many say how it stands; the rest is one tap away. */
const FIRST = 8;

export function TabsTable({ list }: { list: readonly TabRow[] }) {
  const t = words.compare.tabs;
  return (
    <div class="scroll-x" tabIndex={0} role="region" aria-label={t.title}>
      <table class="tabs-check-table" aria-describedby="tabs-check-caption">
        <thead>
          <tr>{[t.pair, t.read, t.guide, t.apart, t.told].map((head) => <th scope="col" key={head}>{head}</th>)}</tr>
        </thead>
        <tbody>
          {list.map(({ names: [a, b], read, guide, disagreement, telling }) => (
            <tr key={`${a} ${b}`} data-telling={telling}>
              <th scope="row">{t.names(a, b)}</th>
              <td class="number">
                {fixed(read.delta_e_00)} {read.doubt !== undefined && <small>{words.sheet.plusMinus(fixed(read.doubt))}</small>}
              </td>
              <td class="number">{fixed(guide.delta_e_00)}</td>
              <td class="number"><b>{fixed(disagreement)}</b></td>
              <td>{t.telling.texts[telling]}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** All that is said around the table. */
function Standing({ list }: { list: readonly TabRow[] }) {
  const t = words.compare.tabs;
  const report = reading.value?.report;
  const made = report ? anchored(report, list).length : 0;
  return (
    <>
      <p class="caption" id="tabs-check-caption">{t.caption}</p>
      <ul class="hint">
        {pairs.value.some((p) => p.wholeTabs) && <li>{t.wholeTabs}</li>}
        {guide.value?.source === 'measured' && <li>{t.measured}</li>}
        {made > 0 && <li>{t.anchored(made)}</li>}
      </ul>
    </>
  );
}

export function TabsCheck() {
  useEffect(startTabsCheck, []);
  const all = useSignal(false);
  const t = words.compare.tabs;
  const list = rows.value;
  if (!reading.value) return null;
  const enough = pairs.value.length > 0;
  const told = list ? toldAsGuide(list) : 0;
  const [worst] = list ?? [];
  return (
    <Depth name="tabs-check" title={t.title} gist={enough && list ? t.gist(told, list.length) : undefined}>
      {!enough && <p>{t.none}</p>}
      {enough && !list && <p>{checkProblem.value ?? t.waiting}</p>}
      {enough && list && worst && (
        <>
          <p class="tabs-check-said">{told === list.length ? t.all(told) : t.some(told, list.length, t.names(...worst.names))}</p>
          <TabsTable list={all.value ? list : list.slice(0, FIRST)} />
          {list.length > FIRST && !all.value && <button type="button" onClick={() => (all.value = true)}>{t.more(list.length)}</button>}
          <Standing list={list} />
        </>
      )}
    </Depth>
  );
}
