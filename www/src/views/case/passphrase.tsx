/** A passphrase, hidden or shown. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { words } from '../../words';
import { Switch } from '../switch';

interface PassphraseProps {
  label: string;
  value: string;
  /** One that is being made, or one that is known. */
  fresh?: boolean;
  disabled?: boolean;
  /** It is what one came for. */
  first?: boolean;
  put: (text: string) => void;
}

/** The most letters that are taken. */
const MAX = 200;

export function Passphrase({ label, value, fresh = false, disabled = false, first = false, put }: PassphraseProps) {
  const shown = useSignal(false);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (first) field.current?.focus();
  }, []);
  return (
    <div class="passphrase">
      <label>
        {label}
        <input
          ref={field}
          type={(shown.value ? 'text' : 'password') as 'text'}
          value={value}
          maxLength={MAX}
          autocomplete={fresh ? 'new-password' : 'off'}
          disabled={disabled}
          onInput={(e) => put(e.currentTarget.value)}
        />
      </label>
      <Switch on={shown.value} text={words.caseFile.show} turn={(on) => (shown.value = on)} />
    </div>
  );
}
