/** Which outlines stand on the sheet, where there is a choice. */
import type { Role } from '../../charts/series';
import type { Region } from '../../engine/types';
import { change, scene } from '../../state/desk';
import type { SheetModel } from '../../state/sheet_model';
import { chosenRestoration, chosenTab } from '../../state/ui';
import { words } from '../../words';

function choose(role: Role, id: string): void {
  if (role === 'target') change(words.edits.chooseTarget, { target: id });
  else if (role === 'restoration') chosenRestoration.value = id;
  else chosenTab.value = id;
}

/** Whom a picture can be exchanged for. A restoration may also be compared with a tab. */
function candidates(role: Role): Region[] {
  const kinds = role === 'target' ? ['tooth', 'tab'] : [role];
  return scene.value.regions.filter((r) => kinds.includes(r.kind));
}

export function Choosers({ model }: { model: SheetModel }) {
  const rows = model.pictures
    .map(({ region, role }) => ({ region, role, options: candidates(role) }))
    .filter(({ options }) => options.length > 1);
  if (rows.length === 0) return null;
  return (
    <div class="choosers">
      {rows.map(({ region, role, options }) => (
        <label key={role}>
          {words.sheet.choose[role]}
          <select id={`choose-${role}`} value={region.id} onChange={(e) => choose(role, e.currentTarget.value)}>
            {options.map((r) => (
              <option key={r.id} value={r.id}>
                {words.names.region(scene.value, r.id)}
              </option>
            ))}
          </select>
        </label>
      ))}
    </div>
  );
}
