/** A number field between two buttons that step it. */
import { words } from '../words';
import { NumberField } from './number_field';

interface StepperProps {
  value: number;
  label: string;
  min: number;
  max: number;
  step: number;
  put: (value: number) => void;
}

export function Stepper({ value, label, min, max, step, put }: StepperProps) {
  const t = words.pair;
  const by = (amount: number) => put(Math.min(Math.max(value + amount, min), max));
  return (
    <div class="stepper">
      <NumberField value={value} label={label} visible={label} min={min} max={max} step={step} put={put} />
      <button type="button" aria-label={t.less(label)} onClick={() => by(-step)}>
        −
      </button>
      <button type="button" aria-label={t.more(label)} onClick={() => by(step)}>
        +
      </button>
    </div>
  );
}
