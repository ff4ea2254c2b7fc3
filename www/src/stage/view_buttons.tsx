/** Zoom by buttons, and outlines hidden while a button is held. */
import { outlinesHidden, view } from '../state/ui';
import { words } from '../words';
import { zoomControls } from './controls';
import { NoteButton } from './note_button';

export function ViewButtons() {
  const t = words.stage;
  const hide = () => (outlinesHidden.value = true);
  const show = () => (outlinesHidden.value = false);
  const hold = (key: string) => key === ' ' || key === 'Enter';
  return (
    <div class="view-buttons">
      <button type="button" aria-label={t.zoomIn} title={t.zoomIn} onClick={() => zoomControls()?.by(1.4)}>
        +
      </button>
      <button type="button" aria-label={t.zoomOut} title={t.zoomOut} onClick={() => zoomControls()?.by(1 / 1.4)}>
        −
      </button>
      <button type="button" title={t.fitLong} onClick={() => zoomControls()?.fit()}>
        {t.fit}
      </button>
      <button type="button" title={t.actualLong} onClick={() => zoomControls()?.actual()} aria-description={t.zoomHelp(Math.round(view.value.k * 100))}>
        {t.actual}
      </button>
      <NoteButton />
      <button
        type="button"
        class="hold"
        title={t.hideLong}
        aria-pressed={outlinesHidden.value}
        onPointerDown={hide}
        onPointerUp={show}
        onPointerLeave={show}
        onPointerCancel={show}
        onKeyDown={(event) => hold(event.key) && hide()}
        onKeyUp={(event) => hold(event.key) && show()}
        onBlur={show}
        onContextMenu={(event) => event.preventDefault()}
      >
        {t.hide}
      </button>
    </div>
  );
}
