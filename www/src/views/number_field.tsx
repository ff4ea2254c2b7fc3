/** A number that is taken over when it is one; until then what was typed stays. */
import { useSignal } from '@preact/signals';

interface NumberFieldProps {
  value: number;
  label: string;
  /** Shown beside the field; otherwise the label is only read out. */
  visible?: string;
  min?: number;
  max?: number;
  step?: number;
  put: (value: number) => void;
}

export function NumberField({ value, label, visible, min, max, step = 1, put }: NumberFieldProps) {
  const typed = useSignal<string | null>(null);
  const shown = typed.value ?? String(Math.round(value * 100) / 100);
  const input = (text: string) => {
    typed.value = text;
    const number = Number(text.replace(',', '.'));
    const fits = text.trim() !== '' && Number.isFinite(number) && number >= (min ?? -1e5) && number <= (max ?? 1e5);
    if (fits && number !== value) put(number);
  };
  return (
    <label class="number-field">
      {visible}
      <input
        type="number"
        inputMode="decimal"
        aria-label={label}
        value={shown}
        min={min}
        max={max}
        step={step}
        onInput={(e) => input(e.currentTarget.value)}
        onBlur={() => (typed.value = null)}
      />
    </label>
  );
}
