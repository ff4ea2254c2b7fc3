/** A line of text that says so when it is full: what is typed beyond it would be lost without a word. */
import { useId } from 'preact/hooks';
import { words } from '../words';

interface TextFieldProps {
  value: string;
  label: string;
  max?: number;
  class?: string;
  put: (text: string) => void;
}

export function TextField({ value, label, max = 80, class: name, put }: TextFieldProps) {
  const id = useId();
  const full = value.length >= max;
  return (
    <label class={name}>
      {label}
      <input value={value} maxLength={max} autocomplete="off" aria-label={label} aria-describedby={full ? id : undefined} onInput={(e) => put(e.currentTarget.value)} />
      {full && <small id={id}>{words.typed.full(max)}</small>}
    </label>
  );
}
