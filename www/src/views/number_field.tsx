/**
 * A number that is taken over when it is one and fits. What does not fit stays as it was typed, is
 * marked, and has what would fit beside it.
 */
import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { inField, numberOf, typedNumber } from '../state/typed_number';
import { words } from '../words';

export interface NumberFieldProps {
  value: number;
  label: string;
  /** Shown beside the field; otherwise the label is only read out. */
  visible?: string | undefined;
  min?: number | undefined;
  max?: number | undefined;
  step?: number | undefined;
  whole?: boolean | undefined;
  put: (value: number) => void;
  /** Told what does not fit; empty once it fits again. */
  refuse?: ((text: string) => void) | undefined;
  /** What was refused, where the owner keeps it. */
  refused?: string | undefined;
}

export function NumberField({ value, label, visible, min = -1e5, max = 1e5, step = 1, whole = false, put, refuse, refused = '' }: NumberFieldProps) {
  const id = useId();
  // Typed for the value that was there; another value, as of a step or of undo, takes its place.
  const typed = useSignal<{ text: string; at: number } | null>(null);
  const own = typed.value?.at === value ? typed.value.text : refused;
  const fits = (n: number) => n >= min && n <= max && (!whole || Number.isInteger(n));
  const wrong = own !== '' && !fits(numberOf(own));
  const input = (text: string) => {
    const number = numberOf(text);
    const taken = fits(number);
    // A space stands for an emptied field: that is refused too.
    typed.value = { text: text || ' ', at: taken ? number : value };
    refuse?.(taken ? '' : text || ' ');
    if (taken && number !== value) put(number);
  };
  const keys = (event: KeyboardEvent) => {
    const by = { ArrowUp: step, ArrowDown: -step }[event.key];
    if (!by) return;
    event.preventDefault();
    refuse?.('');
    put(Math.min(Math.max(value + by, min), max));
  };
  const t = words.typed;
  const says = Math.abs(min) === 1e5 || max === 1e5 ? t.number : t.range(typedNumber(min), typedNumber(max), whole);
  return (
    <label class="number-field">
      {visible && <span>{visible}</span>}
      <input
        inputMode={min < 0 ? 'text' : 'decimal'}
        autocomplete="off"
        aria-label={label}
        aria-invalid={wrong}
        aria-describedby={wrong ? id : undefined}
        value={own === '' ? inField(value) : own.trim() && own}
        onInput={(e) => input(e.currentTarget.value)}
        onKeyDown={keys}
        onBlur={() => !wrong && (typed.value = null)}
      />
      {wrong && <small id={id} class="wrong">{says} {!refuse && t.holds(typedNumber(value))}</small>}
    </label>
  );
}
