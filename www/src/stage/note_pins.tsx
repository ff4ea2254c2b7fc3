/** The pins of the notes over the photo, and the tap that places a new one. */
import { useRef } from 'preact/hooks';
import { endRun, photo } from '../state/desk';
import type { PhotoNote } from '../state/doc';
import { chooseNote, chosenNote, moveNote, notes, openText, pinInMiddle, pinning, pinNote, removeNote, sayPlace, stopPinning } from '../state/notes_edit';
import { onPhoto } from '../state/stains/plan_pictures';
import { outlinesHidden, stageSize, view } from '../state/ui';
import { focusOn } from '../views/focus_on';
import { words } from '../words';
import { photoFromStage, stageFromPhoto } from './geometry';
import { Handle, TAP_SLOP_PX } from './handle';

const PIN_PX = 13;
const pinId = (id: string): string => `pin-${id}`;

function toText(id: string): void {
  openText(id);
  focusOn(`text-${id}`);
}

function Pin({ note, n }: { note: PhotoNote; n: number }) {
  const drag = useRef({ from: note.at, run: '' });
  const key = (name: string) => {
    if (name === 'Enter') toText(note.id);
    else if (name === 'Delete' || name === 'Backspace') {
      const next = notes.value[n] ?? notes.value[n - 2];
      removeNote(note.id);
      focusOn(...(next ? [pinId(next.id)] : []), 'add-note');
    } else return false;
    return true;
  };
  return (
    <Handle
      id={pinId(note.id)}
      class={chosenNote.value === note.id ? 'pin chosen' : 'pin'}
      at={stageFromPhoto(view.value, note.at)}
      label={words.notes.pin(n, note.text)}
      onStart={() => (drag.current = { from: note.at, run: `drag ${note.id} ${performance.now()}` })}
      onFocus={() => chooseNote(note.id)}
      onDrag={(dx, dy) => {
        const { from: [x, y], run } = drag.current;
        moveNote(note.id, [x + dx / view.value.k, y + dy / view.value.k], run);
      }}
      onEnd={() => {
        endRun();
        sayPlace(note.id);
      }}
      onNudge={(dx, dy) => {
        moveNote(note.id, [note.at[0] + dx, note.at[1] + dy], `nudge ${note.id}`);
        sayPlace(note.id);
      }}
      onKey={key}
      onTap={() => toText(note.id)}
    >
      <circle class="dot" r={PIN_PX} />
      <text dominant-baseline="central">{n}</text>
    </Handle>
  );
}

/** Catches the one tap; drags, pinches and the wheel still move the photo. */
function Catcher() {
  const start = useRef<{ x: number; y: number; id: number } | null>(null);
  const t = words.notes;
  const stop = () => {
    stopPinning();
    focusOn('add-note');
  };
  const inMiddle = () => {
    const id = pinInMiddle();
    if (id) focusOn(pinId(id));
  };
  return (
    <>
      <div
        class="note-catcher"
        onPointerDown={(e) => {
          e.stopPropagation();
          start.current = e.isPrimary && e.button === 0 ? { x: e.clientX, y: e.clientY, id: e.pointerId } : null;
        }}
        onPointerUp={(e) => {
          const began = start.current;
          start.current = null;
          if (began?.id !== e.pointerId || Math.hypot(e.clientX - began.x, e.clientY - began.y) > TAP_SLOP_PX) return;
          const { left, top } = e.currentTarget.getBoundingClientRect();
          const id = pinNote(photoFromStage(view.value, [e.clientX - left, e.clientY - top]));
          if (id) toText(id);
        }}
      />
      <div class="note-ask" role="group" aria-label={t.add} data-grab onKeyDown={(e) => e.key === 'Escape' && stop()}>
        <span>{t.tap}</span>
        <button type="button" id="note-middle" onClick={inMiddle}>{t.middle}</button>
        <button type="button" onClick={stop}>{t.cancel}</button>
      </div>
    </>
  );
}

export function NotePins() {
  if (!photo.value) return null;
  const { width, height } = stageSize.value;
  return (
    <>
      {pinning.value && <Catcher />}
      <svg class={outlinesHidden.value || onPhoto.value ? 'overlay pins hidden' : 'overlay pins'} width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
        {notes.value.map((note, i) => (
          <Pin key={note.id} note={note} n={i + 1} />
        ))}
      </svg>
    </>
  );
}
