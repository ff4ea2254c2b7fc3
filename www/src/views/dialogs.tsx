/** Settings and the list of keys: over the page, which waits; Escape or the button closes them. */
import { useEffect, useRef } from 'preact/hooks';
import { dialog, type DialogName } from '../state/dialogs';
import { words } from '../words';
import { KeysDialog } from './keys_dialog';
import { SettingsDialog } from './settings_dialog';

function Frame({ name }: { name: DialogName }) {
  const root = useRef<HTMLDialogElement>(null);
  useEffect(() => root.current!.showModal(), []);
  const title = words[name].title;
  return (
    <dialog ref={root} class={`dialog ${name}`} aria-labelledby="dialog-title" onClose={() => (dialog.value = null)}>
      <header>
        <h2 id="dialog-title">{title}</h2>
        <button type="button" onClick={() => root.current!.close()}>
          {words.settings.close}
        </button>
      </header>
      <div class="dialog-body" tabIndex={0} role="region" aria-label={title}>
        {name === 'settings' ? <SettingsDialog /> : <KeysDialog />}
      </div>
    </dialog>
  );
}

export const Dialogs = () => (dialog.value ? <Frame key={dialog.value} name={dialog.value} /> : null);
