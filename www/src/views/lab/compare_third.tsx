/** What is said about one third of the two: the difference, and the nearest tab of each. */
import { StrokeSample } from '../../charts/axis_curve';
import { fixed } from '../../charts/format';
import type { Scene, Zone } from '../../engine/types';
import { differences, thirdPairs } from '../../state/compare/compare';
import { nearestOf, type Side, type Sided } from '../../state/compare/compare_model';
import { isTold } from '../../state/sheet_model';
import { words } from '../../words';

export function Difference({ zone, scene }: { zone: Zone; scene: Scene }) {
  const [t, c] = [words.sheet, words.compare];
  const found = differences.value.get(zone);
  if (!found) return <p class="none">{thirdPairs.value.some((p) => p.zone === zone) ? '' : c.noNumber}</p>;
  const told = isTold(found);
  return (
    <>
      <p class="big">
        {fixed(found.delta_e_00)}
        <small>
          {t.deltaE} {found.doubt !== undefined && t.plusMinus(fixed(found.doubt))}
        </small>
      </p>
      <p class="verdict">{told ? t.verdict[found.verdict] : c.unsure}</p>
      {told && <p>{words.names.said(scene, found.words)}</p>}
    </>
  );
}

export function Nearest({ side, role, zone }: { side: Sided; role: Side; zone: Zone }) {
  const c = words.compare;
  const found = nearestOf(side, zone);
  if (!found) return null;
  const name = (tab: string) => words.names.tab(side.of.made.scene, tab);
  return (
    <p>
      <span class="unseen">{c.role[role]}: </span>
      <StrokeSample role={role} /> <b>{name(found.rung.name)}</b> <small>{words.sheet.deltaE} {fixed(found.rung.delta_e_00)}</small>
      {found.alike.length > 0 && <small class="alike">{c.asNear(found.alike.slice(0, 2).map(name).join(', '))}</small>}
      {found.rung.basis !== 'in_photo' && <small class="alike">{words.sheet.ladder.bases[found.rung.basis]}</small>}
    </p>
  );
}
