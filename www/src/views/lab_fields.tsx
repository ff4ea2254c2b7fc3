/** Three fields for L*, a* and b*, as text until they make a colour. What cannot be meant is marked by itself. */
import { useId } from 'preact/hooks';
import { LAB_RANGES, wrongAxes, type LabText } from '../state/stains/draft';
import { typedNumber } from '../state/typed_number';
import { words } from '../words';

interface LabFieldsProps {
  text: LabText;
  label: (axis: string) => string;
  /** A colour has to stand here: an empty field is wrong too. */
  asked?: boolean;
  put: (next: LabText) => void;
}

export function LabFields({ text, label, asked = false, put }: LabFieldsProps) {
  const id = useId();
  const wrong = wrongAxes(text, asked);
  return (
    <>
      <span class="lab-fields">
        {LAB_RANGES.map(({ name }, axis) => (
          <label key={name}>
            <span aria-hidden="true">{name}</span>
            <input
              inputMode="text"
              autocomplete="off"
              value={text[axis]}
              aria-label={label(name)}
              aria-invalid={wrong[axis]}
              aria-describedby={wrong[axis] ? id + axis : undefined}
              onInput={(e) => put(text.map((t, i) => (i === axis ? e.currentTarget.value : t)) as unknown as LabText)}
            />
          </label>
        ))}
      </span>
      {wrong.some(Boolean) && (
        <span class="wrong">{LAB_RANGES.map(({ name, min, max }, axis) => wrong[axis] && <small key={name} id={id + axis}>{words.typed.axis(name, typedNumber(min), typedNumber(max))}</small>)}</span>
      )}
    </>
  );
}
