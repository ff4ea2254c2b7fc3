/** What is said about one third: the difference, and which way to paint. */
import { evennessOf } from '../../charts/evenness_scale';
import { fixed } from '../../charts/format';
import type { Rung, ZoneAdvice } from '../../engine/types';
import { scene } from '../../state/desk';
import type { SheetRow } from '../../state/sheet_model';
import { words } from '../../words';

function AgainstTarget({ advice, surface }: { advice: ZoneAdvice; surface: SheetRow['surface'] }) {
  const t = words.sheet;
  return (
    <>
      <p class="big">
        {fixed(advice.delta_e_00)}
        <small>
          {t.deltaE} {t.plusMinus(fixed(advice.doubt))}
        </small>
      </p>
      <p class="verdict">{t.verdict[advice.verdict]}</p>
      <p>{advice.words}</p>
      {surface && evennessOf(surface.blotch) !== 'even' && <p class="surface">{words.evenness.surface(surface.blotch, surface.than)}</p>}
    </>
  );
}

function NearestTab({ rung, note }: { rung: Rung; note: string | undefined }) {
  const t = words.sheet;
  return (
    <>
      <p class="big">
        {words.names.tab(scene.value, rung.name)}
        <small>
          {t.deltaE} {fixed(rung.delta_e_00)}
        </small>
      </p>
      <p class="verdict">{t.verdict[rung.verdict]}</p>
      <p>{t.tabIs(rung.words)}</p>
      {note && <p>{words.names.said(scene.value, note)}</p>}
      <p class="basis">{t.ladder.bases[rung.basis]}</p>
    </>
  );
}

export function Third({ row, judging, subject }: { row: SheetRow; judging: boolean; subject: boolean }) {
  const { advice, nearest, note, zone, surface } = row;
  const said = judging ? advice && <AgainstTarget advice={advice} surface={surface} /> : nearest && <NearestTab rung={nearest} note={note} />;
  return (
    <div class="third" data-zone={zone}>
      <div class="difference" data-delta-e={advice?.delta_e_00}>
        {said ?? <p class="none">{subject ? words.sheet.noNumber : zone === 'cervical' && words.sheet.noSubject}</p>}
      </div>
      {judging && (
        <ul class="paint">
          {advice?.directions.map((direction) => (
            <li key={direction}>{words.sheet.direction[direction]}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
