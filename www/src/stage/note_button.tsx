/** In the bar of the photo: the next tap pins a note. */
import { pinning, startPinning, stopPinning } from '../state/notes_edit';
import { focusOn } from '../views/focus_on';
import { words } from '../words';

/** The keyboard goes on where a place can be given without a tap. */
export function askForPlace(): void {
  startPinning();
  focusOn('note-middle');
}

export function NoteButton() {
  const on = pinning.value;
  return (
    <button type="button" class="add-note" aria-label={words.notes.add} aria-pressed={on} onClick={on ? stopPinning : askForPlace}>
      {words.notes.addShort}
    </button>
  );
}
