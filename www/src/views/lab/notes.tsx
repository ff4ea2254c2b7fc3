/** The notes of the photo as a list; on paper with a picture of the photo and its pins. */
import { endRun, photo } from '../../state/desk';
import { chooseNote, chosenNote, notes, removeNote, whereText, writeNote } from '../../state/notes_edit';
import { MAX_NOTE_TEXT, MAX_NOTES } from '../../state/notes_model';
import { askForPlace } from '../../stage/note_button';
import { side } from '../../state/ui';
import { words } from '../../words';
import { Depth } from '../depth';
import { focusOn } from '../focus_on';

function show(id: string): void {
  chooseNote(id);
  side.value = 'photo';
  focusOn(`pin-${id}`);
}

function remove(id: string, at: number): void {
  const next = notes.value[at + 1] ?? notes.value[at - 1];
  removeNote(id);
  focusOn(...(next ? [`text-${next.id}`] : []), 'add-note');
}

/** For the reading's depth and for the tray. */
export function NotesList() {
  const t = words.notes;
  return (
    <div class="note-list">
      <ol>
        {notes.value.map(({ id, at, text }, i) => (
          <li key={id} class={chosenNote.value === id ? 'chosen' : undefined} onFocusIn={() => chooseNote(id)}>
            <span class="pin-number" aria-hidden="true">{i + 1}</span>
            <div>
              <textarea id={`text-${id}`} rows={1} value={text} maxLength={MAX_NOTE_TEXT} aria-label={t.text(i + 1)} aria-describedby={`where-${id}`} onInput={(e) => writeNote(id, e.currentTarget.value)} onBlur={endRun} />
              <small id={`where-${id}`}>
                {whereText(at)}{text.length >= MAX_NOTE_TEXT && `; ${words.typed.full(MAX_NOTE_TEXT)}`}
              </small>
            </div>
            <div class="note-acts">
              <button type="button" aria-label={t.show(i + 1)} onClick={() => show(id)}>{t.showShort}</button>
              <button type="button" aria-label={t.remove(i + 1)} onClick={() => remove(id, i)}>{t.removeShort}</button>
            </div>
          </li>
        ))}
      </ol>
      <button type="button" id="add-note" disabled={notes.value.length >= MAX_NOTES} onClick={askForPlace}>{t.add}</button>
      <p class="hint">{notes.value.length >= MAX_NOTES ? t.full(MAX_NOTES) : t.hint}</p>
    </div>
  );
}

/** As large as half a sheet of paper needs. */
export function PrintedNotes() {
  if (notes.value.length === 0) return null;
  return (
    <div class="printed-notes print-only">
      <ol>
        {notes.value.map(({ id, at, text }) => (
          <li key={id}>
            {text || words.notes.empty} <small>({whereText(at)})</small>
          </li>
        ))}
      </ol>
    </div>
  );
}

export function Notes() {
  if (!photo.value) return null;
  return (
    <Depth name="notes" title={words.notes.title} gist={words.notes.gist(notes.value.length)}>
      <NotesList />
      <PrintedNotes />
    </Depth>
  );
}
