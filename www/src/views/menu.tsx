/** Everything that can be done, under its heads. */
import { useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { photo } from '../state/desk';
import { dialog } from '../state/dialogs';
import { hasAllNumbers, hasNumbers } from '../state/exports/numbers';
import { searchAgain } from '../state/find';
import { openDemo } from '../state/open';
import { openPatient } from '../state/patient/patient';
import { work } from '../state/stains/work';
import { shownPlan } from '../state/stains/planning';
import { startTour } from '../state/tour';
import { mode, showMode } from '../state/ui';
import { words } from '../words';
import { copyCsv, pickCase, pickGuide, pickPhoto, pickPolarised, pickScene, saveAllCsv, saveCsv, savePicture, saveScene, takePhoto } from './actions';
import { beginCase } from './case/begin';
import { focusOn } from './focus_on';
import { showOwnTabs } from './shape_editor';

/** Below the list. */
const EDGE_PX = 12;

/** Ends a list that is too long in the middle of a row: one sees that it goes on. */
function cutRow(list: HTMLElement): void {
  const room = innerHeight - list.getBoundingClientRect().top - EDGE_PX;
  // In the words, not between two lines of them.
  const cuts = [...list.querySelectorAll('button')].map((row) => row.offsetTop + 0.4 * row.offsetHeight);
  list.style.maxHeight = `${list.scrollHeight <= room ? room : Math.max(...cuts.filter((y) => y <= room))}px`;
}

export function Menu() {
  const open = useSignal(false);
  const root = useRef<HTMLDivElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const close = () => {
    open.value = false;
    root.current?.querySelector('button')?.focus();
  };
  useEffect(() => {
    const outside = (event: Event) => {
      if (!root.current?.contains(event.target as Node)) open.value = false;
    };
    // Wherever the focus is by then: a press on a head of the list takes it out of the menu.
    const escape = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || !open.value) return;
      event.stopPropagation();
      close();
    };
    document.addEventListener('pointerdown', outside);
    document.addEventListener('keydown', escape, true);
    return () => (document.removeEventListener('pointerdown', outside), document.removeEventListener('keydown', escape, true));
  }, []);
  useLayoutEffect(() => {
    if (open.value) cutRow(list.current!);
  }, [open.value]);
  const t = words.menu;
  const has = photo.value !== null;
  const numbers = has && hasNumbers();
  type Item = [string, () => void, boolean];
  const groups: [string, Item[]][] = [
    [t.groups.photo, [
      [t.open, pickPhoto, true],
      [t.camera, takePhoto, true],
      [t.demo, () => void openDemo().then(() => focusOn(mode.value)), true],
      [words.found.again, searchAgain, has],
      [t.polarised, pickPolarised, has],
    ]],
    [t.groups.case, [
      [t.saveCase, () => (dialog.value = 'saveCase'), has || work.value !== null],
      [t.openCase, pickCase, true],
      [t.cases, () => (dialog.value = 'cases'), true],
      [t.newCase, beginCase, has || work.value !== null],
    ]],
    [t.groups.files, [
      [t.copyCsv, () => void copyCsv(), numbers],
      [t.saveCsv, () => void saveCsv(), numbers],
      [words.tray.csv, () => void saveAllCsv(), hasAllNumbers()],
      [t.savePicture, () => void savePicture(), numbers],
      [t.saveMore, () => (dialog.value = 'exports'), has],
      mode.value === 'plan' ? [words.plan.print, () => window.print(), shownPlan.value !== null] : [t.print, () => window.print(), numbers && mode.value === 'reading'],
      [t.openScene, pickScene, has],
      [t.saveScene, saveScene, has],
    ]],
    [t.groups.bench, [
      [words.patient.show, openPatient, has],
      [t.ownTabs, showOwnTabs, has],
      [t.guide, pickGuide, true],
      [words.modes.openSwatches, () => showMode('swatches'), true],
    ]],
    [t.groups.page, [
      [words.tour.menu, () => void (photo.value ? Promise.resolve() : openDemo()).then(startTour), true],
      [words.keys.title, () => (dialog.value = 'keys'), true],
      [t.kept, () => (dialog.value = 'privacy'), true],
      [words.settings.title, () => (dialog.value = 'settings'), true],
    ]],
  ];
  return (
    <div class="menu" ref={root}>
      <button type="button" aria-expanded={open.value} aria-controls="menu-list" onClick={() => (open.value = !open.value)}>
        {t.more}
      </button>
      <div id="menu-list" ref={list} hidden={!open.value}>
        {groups.map(([head, items], i) => (
          <section key={head}>
            <h2 id={`menu-${i}`}>{head}</h2>
            <ul aria-labelledby={`menu-${i}`}>
              {items.map(([text, act, can]) => (
                <li key={text}>
                  <button type="button" disabled={!can} onClick={() => (close(), act())}>
                    {text}
                  </button>
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
    </div>
  );
}
