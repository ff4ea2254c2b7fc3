/** Name, undo and redo, and the menu. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { photo, redoLabel, redoStep, undoLabel, undoStep } from '../state/desk';
import { dialog } from '../state/dialogs';
import { searchAgain } from '../state/find';
import { openDemo } from '../state/open';
import { openPatient } from '../state/patient/patient';
import { shownPlan } from '../state/stains/planning';
import { startTour } from '../state/tour';
import { mode, showMode } from '../state/ui';
import { words } from '../words';
import { Clock, DryingNote } from './clock';
import { focusOn } from './focus_on';
import { showOwnTabs } from './shape_editor';
import { TourOffer } from './tour_offer';
import { copyCsv, hasAllNumbers, hasNumbers, pickGuide, pickPhoto, pickPolarised, pickScene, saveAllCsv, saveCsv, saveScene, takePhoto } from './actions';

function Menu() {
  const open = useSignal(false);
  const root = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const outside = (event: Event) => {
      if (!root.current?.contains(event.target as Node)) open.value = false;
    };
    document.addEventListener('pointerdown', outside);
    return () => document.removeEventListener('pointerdown', outside);
  }, []);
  const t = words.menu;
  const has = photo.value !== null;
  const numbers = has && hasNumbers();
  const items: [string, () => void, boolean][] = [
    [t.open, pickPhoto, true],
    [t.camera, takePhoto, true],
    [t.demo, () => void openDemo().then(() => focusOn(mode.value)), true],
    [words.found.again, searchAgain, has],
    [t.polarised, pickPolarised, has],
    [t.ownTabs, showOwnTabs, has],
    [t.guide, pickGuide, true],
    [words.modes.openSwatches, () => showMode('swatches'), true],
    [t.openScene, pickScene, has],
    [t.saveScene, saveScene, has],
    [words.patient.show, openPatient, has],
    [t.copyCsv, () => void copyCsv(), numbers],
    [t.saveCsv, saveCsv, numbers],
    [words.tray.csv, saveAllCsv, hasAllNumbers()],
    mode.value === 'plan' ? [words.plan.print, () => window.print(), shownPlan.value !== null] : [t.print, () => window.print(), numbers && mode.value === 'reading'],
    [words.tour.menu, () => void (photo.value ? Promise.resolve() : openDemo()).then(startTour), true],
    [words.keys.title, () => (dialog.value = 'keys'), true],
    [words.settings.title, () => (dialog.value = 'settings'), true],
  ];
  const close = () => {
    open.value = false;
    root.current?.querySelector('button')?.focus();
  };
  return (
    <div class="menu" ref={root} onKeyDown={(event) => event.key === 'Escape' && open.value && close()}>
      <button type="button" aria-expanded={open.value} aria-controls="menu-list" onClick={() => (open.value = !open.value)}>
        {t.more}
      </button>
      <ul id="menu-list" hidden={!open.value}>
        {items.map(([text, act, can]) => (
          <li key={text}>
            <button
              type="button"
              disabled={!can}
              onClick={() => {
                close();
                act();
              }}
            >
              {text}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

export function TopBar() {
  const t = words.menu;
  const [undo, redo] = [undoLabel.value, redoLabel.value];
  // On the empty page there is nothing to undo.
  const changed = photo.value !== null || undo !== null || redo !== null;
  return (
    <header class={changed ? 'top-bar changed' : 'top-bar'}>
      <h1>Tabside</h1>
      <span class={photo.value?.name === words.demo.name ? 'file-name of-demo' : 'file-name'}>{photo.value && words.photo.shown(photo.value.name)}</span>
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
