/**
 * Settings, the list of keys, what is kept: over the page, which waits; Escape or the button closes them.
 * What asks while the patient looks, as a file that has to be unlocked, does so afterwards.
 */
import type { ComponentType } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { dialog, type DialogName } from '../state/dialogs';
import { labPaper } from '../state/exports/paper';
import { patientOpen } from '../state/patient/patient';
import { words } from '../words';
import { Cases } from './case/cases';
import { SaveCase } from './case/save_case';
import { UnlockCase } from './case/unlock_case';
import { ExportsDialog } from './exports/exports_dialog';
import { LabPaper } from './exports/lab_paper';
import { KeysDialog } from './keys_dialog';
import { PrivacyDialog } from './privacy_dialog';
import { SettingsDialog } from './settings_dialog';

const SHOWN: Record<DialogName, { title: () => string; Body: ComponentType }> = {
  settings: { title: () => words.settings.title, Body: SettingsDialog },
  keys: { title: () => words.keys.title, Body: KeysDialog },
  exports: { title: () => words.exports.title, Body: ExportsDialog },
  privacy: { title: () => words.privacy.title, Body: PrivacyDialog },
  cases: { title: () => words.cases.title, Body: Cases },
  saveCase: { title: () => words.menu.saveCase, Body: SaveCase },
  unlockCase: { title: () => words.caseFile.unlock, Body: UnlockCase },
};

function Frame({ name }: { name: DialogName }) {
  const root = useRef<HTMLDialogElement>(null);
  useEffect(() => root.current!.showModal(), []);
  const { Body, title: titled } = SHOWN[name];
  const title = titled();
  return (
    <dialog ref={root} class={`dialog ${name}`} aria-labelledby="dialog-title" onClose={() => (dialog.value = null)}>
      <header>
        <h2 id="dialog-title">{title}</h2>
        <button type="button" onClick={() => root.current!.close()}>
          {words.settings.close}
        </button>
      </header>
      <div class="dialog-body" tabIndex={0} role="region" aria-label={title}>
        <Body />
      </div>
    </dialog>
  );
}

export const Dialogs = () => (
  <>
    {dialog.value && !patientOpen.value && <Frame key={dialog.value} name={dialog.value} />}
    {labPaper.value && <LabPaper />}
  </>
);
