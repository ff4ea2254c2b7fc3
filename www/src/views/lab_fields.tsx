/** Three fields for L*, a* and b*, as text until they make a colour. */
import { LAB_RANGES, type LabText } from '../state/stains/draft';

interface LabFieldsProps {
  text: LabText;
  label: (axis: string) => string;
  invalid?: boolean;
  put: (next: LabText) => void;
}

export function LabFields({ text, label, invalid = false, put }: LabFieldsProps) {
  return (
    <span class="lab-fields">
      {LAB_RANGES.map(({ name }, axis) => (
        <label key={name}>
          <span aria-hidden="true">{name}</span>
          <input
            inputMode="text"
            autocomplete="off"
            value={text[axis]}
            aria-label={label(name)}
            aria-invalid={invalid}
            onInput={(e) => put(text.map((t, i) => (i === axis ? e.currentTarget.value : t)) as unknown as LabText)}
          />
        </label>
      ))}
    </span>
  );
}
