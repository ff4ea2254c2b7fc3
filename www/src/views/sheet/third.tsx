/** What is said about one third: its nearest tab, the difference, and which way to paint. */
import { evennessOf } from '../../charts/evenness_scale';
import { fixed } from '../../charts/format';
import type { ZoneAdvice } from '../../engine/types';
import { scene } from '../../state/desk';
import { isTold, type Nearest, type SheetRow } from '../../state/sheet_model';
import { words } from '../../words';

function AgainstTarget({ advice, surface }: { advice: ZoneAdvice; surface: SheetRow['surface'] }) {
  const t = words.sheet;
  const told = isTold(advice);
  return (
    <>
      <p class="big">
        {fixed(advice.delta_e_00)}
        <small>
          {t.deltaE} {t.plusMinus(fixed(advice.doubt))}
        </small>
      </p>
      <p class="verdict">{told ? t.verdict[advice.verdict] : t.untold}</p>
      {told && <p>{words.names.said(scene.value, advice.words)}</p>}
      {surface && evennessOf(surface.blotch) !== 'even' && <p class="surface">{words.evenness.surface(surface.blotch, surface.than)}</p>}
    </>
  );
}

/** Where the third lies among the tabs, and how sure that is. */
function NearestTab({ nearest: { rung: nearest, alike }, note, alone }: { nearest: Nearest; note: string | undefined; alone: boolean }) {
  const t = words.sheet;
  const others = alike.slice(0, 3).map((name) => words.names.tab(scene.value, name));
  return (
    <>
      <p class="big">
        {words.names.tab(scene.value, nearest.name)}
        <small>
          {t.deltaE} {fixed(nearest.delta_e_00)}
        </small>
      </p>
      <p class="verdict">{others.length > 0 ? t.asNear(others.join(', ')) : t.sure}</p>
      {alone && <p>{t.verdict[nearest.verdict]}</p>}
      {alone && <p>{t.tabIs(words.names.said(scene.value, nearest.words))}</p>}
      {alone && note && <p>{words.names.said(scene.value, note)}</p>}
      {nearest.basis !== 'in_photo' && <p class="basis">{t.ladder.bases[nearest.basis]}</p>}
    </>
  );
}

export function Third({ row, judging, subject }: { row: SheetRow; judging: boolean; subject: boolean }) {
  const { advice, nearest, note, zone, surface } = row;
  const none = <p class="none">{subject ? words.sheet.noNumber : zone === 'cervical' && words.sheet.noSubject}</p>;
  return (
    <div class="third" data-zone={zone}>
      <div class="nearest">{nearest ? <NearestTab nearest={nearest} note={note} alone={!judging} /> : none}</div>
      {judging && (
        <>
          <div class="difference" data-delta-e={advice?.delta_e_00}>
            {advice ? <AgainstTarget advice={advice} surface={surface} /> : none}
          </div>
          <ul class="paint">
            {advice?.directions.map((direction) => (
              <li key={direction}>{words.sheet.direction[direction]}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
