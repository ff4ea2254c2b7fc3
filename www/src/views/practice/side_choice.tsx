/** One side of an exercise: a region of the open photo, or values typed third by third. */
import { THIRDS } from '../../engine/types';
import { EMPTY_SIDE } from '../../state/practice/exercise_model';
import { choiceOf, chosen, options, typed, TYPED, type Role } from '../../state/practice/sides';
import { words } from '../../words';
import { LabFields } from '../lab_fields';

function TypedFields({ role, label }: { role: Role; label: string }) {
  const t = words.practice;
  const now = typed.value[role] ?? EMPTY_SIDE;
  return (
    <div class="typed-side">
      <p class="hint">{t.typedHint}</p>
      {THIRDS.map((zone) => (
        <div key={zone}>
          <span>{words.names.zoneShort[zone]}</span>
          <LabFields
            text={now[zone]}
            label={(axis) => t.field(label, words.names.zoneShort[zone], axis)}
            put={(text) => (typed.value = { ...typed.value, [role]: { ...now, [zone]: text } })}
          />
        </div>
      ))}
    </div>
  );
}

export function SideChoice({ role, label, mayType }: { role: Role; label: string; mayType: boolean }) {
  const choice = choiceOf(role);
  return (
    <div class="side-choice">
      <label>
        {label}
        <select value={choice} onChange={(e) => (chosen.value = { ...chosen.value, [role]: e.currentTarget.value })}>
          {options.value.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
          {(mayType || choice === TYPED) && <option value={TYPED}>{words.practice.typed}</option>}
        </select>
      </label>
      {choice === TYPED && mayType && <TypedFields role={role} label={label} />}
    </div>
  );
}
