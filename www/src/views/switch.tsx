/** Something that is so or not: by a mark and a word. */
import { words } from '../words';

interface SwitchProps {
  on: boolean;
  text: string;
  hint?: string;
  turn: (on: boolean) => void;
}

export function Switch({ on, text, hint, turn }: SwitchProps) {
  return (
    <button type="button" class="switch" role="switch" aria-checked={on} title={hint} onClick={() => turn(!on)}>
      <span class="switch-mark" aria-hidden="true" />
      {text}
      <strong>{on ? words.plan.yes : words.plan.no}</strong>
    </button>
  );
}
