/** Name, undo and redo, and the menu. */
import { current } from '../state/case/at_hand';
import { isDemo } from '../state/demo';
import { photo, redoLabel, redoStep, undoLabel, undoStep } from '../state/desk';
import { words } from '../words';
import { pickPhoto } from './actions';
import { Clock, DryingNote } from './clock';
import { Menu } from './menu';
import { TourOffer } from './tour_offer';

export function TopBar() {
  const t = words.menu;
  const label = photo.value && current.value?.label;
  const [undo, redo] = [undoLabel.value, redoLabel.value];
  // On the empty page there is nothing to undo.
  const changed = photo.value !== null || undo !== null || redo !== null;
  return (
    <header class={changed ? 'top-bar changed' : 'top-bar'}>
      <h1>Tabside</h1>
      {label && <strong class="case-label">{label}</strong>}
      <span class={isDemo(photo.value) ? 'file-name of-demo' : 'file-name'}>{photo.value && words.photo.shown(photo.value.name)}</span>
      <TourOffer />
      {photo.value && (
        <button type="button" class="open-photo" onClick={pickPhoto}>
          {t.open}
        </button>
      )}
      <Clock />
      {changed && (
        <>
          <button type="button" disabled={undo === null} title={undo === null ? t.undo : t.undoWhat(undo)} onClick={undoStep}>
            {t.undo}
          </button>
          <button type="button" disabled={redo === null} title={redo === null ? t.redo : t.redoWhat(redo)} onClick={redoStep}>
            {t.redo}
          </button>
        </>
      )}
      <Menu />
      <DryingNote />
    </header>
  );
}
