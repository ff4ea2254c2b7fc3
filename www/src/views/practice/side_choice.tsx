/** One side of an exercise: a tab of the open photo, another region of it, or values typed third by third. */
import { THIRDS } from '../../engine/types';
import { choiceOf, chosen, options, typed, typedNow, TYPED, type Option, type Role } from '../../state/practice/sides';
import { words } from '../../words';
import { LabFields } from '../lab_fields';

function TypedFields({ role, label }: { role: Role; label: string }) {
  const t = words.practice;
  const now = typedNow(role);
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

const Listed = ({ all }: { all: readonly Option[] }) => (
  <>
    {all.map(({ id, name }) => (
      <option key={id} value={id}>
        {name}
      </option>
    ))}
  </>
);

export function SideChoice({ role, label }: { role: Role; label: string }) {
  const choice = choiceOf(role);
  const others = options.value.filter((o) => !o.isTab);
  return (
    <div class="side-choice">
      <label>
        {label}
        <select value={choice} onChange={(e) => (chosen.value = { ...chosen.value, [role]: e.currentTarget.value })}>
          <Listed all={options.value.filter((o) => o.isTab)} />
          <option value={TYPED}>{words.practice.typed}</option>
          {others.length > 0 && (
            <optgroup label={words.practice.others}>
              <Listed all={others} />
            </optgroup>
          )}
        </select>
      </label>
      {choice === TYPED && <TypedFields role={role} label={label} />}
    </div>
  );
}
