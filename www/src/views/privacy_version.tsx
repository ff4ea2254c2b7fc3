/** Says that a newer version is here; the user decides when it begins. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { startOffline } from '../offline/start';
import { flush } from '../state/case/keeper';
import { newVersion, noticeClosed } from '../state/offline';
import { patientOpen } from '../state/patient/patient';
import { mayLose } from '../state/tray/loss';
import { words } from '../words';

/** The button and what it says; elsewhere in words that say when it cannot be. */
export function UseNewVersion() {
  const state = useSignal<'asked' | 'changing' | 'otherWindows' | 'noAnswer'>('asked');
  const take = newVersion.value;
  const t = words.offline;
  if (!take) return null;
  const use = async () => {
    state.value = 'changing';
    await flush();
    state.value = await take().then((answer) => (answer === 'taken' ? 'changing' : 'otherWindows'), () => 'noAnswer' as const);
  };
  return (
    <>
      {state.value === 'asked' ? mayLose.value && <p>{t.unsaved}</p> : <p role="status">{t.states.texts[state.value]}</p>}
      <button type="button" disabled={state.value === 'changing'} onClick={() => void use()}>
        {mayLose.value ? t.useNowUnsaved : t.useNow}
      </button>
    </>
  );
}

export function NewVersion() {
  const t = words.offline;
  useEffect(() => void startOffline(), []);
  if (!newVersion.value || noticeClosed.value || patientOpen.value) return null;
  return (
    <section class="busy new-version" aria-labelledby="new-version">
      <div>
        <strong id="new-version">{t.newHere}</strong> <span>{t.newHint}</span>
      </div>
      <UseNewVersion />
      <button type="button" onClick={() => (noticeClosed.value = true)}>
        {t.notNow}
      </button>
    </section>
  );
}
