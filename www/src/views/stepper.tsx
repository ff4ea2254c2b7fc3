/** A number field between buttons that step it: by its step, and by a larger one where that is far. */
import { words } from '../words';
import { NumberField, type NumberFieldProps } from './number_field';

interface StepperProps extends Omit<NumberFieldProps, 'visible'> {
  min: number;
  max: number;
  step: number;
  /** Has buttons of its own. */
  large?: number;
}

export function Stepper({ large, ...field }: StepperProps) {
  const { value, label, min, max, step, put, refuse } = field;
  const t = words.pair;
  const by = (amount: number) => {
    refuse?.('');
    put(Math.min(Math.max(value + amount, min), max));
  };
  return (
    <div class="stepper">
      <NumberField {...field} visible={label} />
      {large && <button type="button" aria-label={t.lessBy(label, large)} onClick={() => by(-large)}>−{large}</button>}
      <button type="button" aria-label={t.less(label)} onClick={() => by(-step)}>−</button>
      <button type="button" aria-label={t.more(label)} onClick={() => by(step)}>+</button>
      {large && <button type="button" aria-label={t.moreBy(label, large)} onClick={() => by(large)}>+{large}</button>}
    </div>
  );
}
