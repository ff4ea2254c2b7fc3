/** A word that explains itself: looks like the word, with a quiet mark behind it. */
import type { ComponentChildren } from 'preact';
import { explained, HELP_ID, type TermName } from '../state/explained';

/** The box itself comes after the first screen (`help_box`). */
export function Term({ name, children }: { name: TermName; children: ComponentChildren }) {
  const press = (event: MouseEvent) => {
    // The button is the box's invoker only so that a press on it is not one outside of the box.
    event.preventDefault();
    const beside = event.currentTarget as HTMLElement;
    explained.value = explained.value?.beside === beside ? null : { name, beside };
  };
  return (
    <button type="button" class="term" popovertarget={HELP_ID} aria-haspopup="dialog" aria-expanded={explained.value?.name === name} data-term={name} onClick={press}>
      {children}
      <span class="term-mark" aria-hidden="true" />
    </button>
  );
}
