/** The passphrase of an encrypted case. */
import { useSignal } from '@preact/signals';
import { unlockWaiting, waitingFile } from '../../state/case/open_case';
import { dialog } from '../../state/dialogs';
import { report } from '../../state/problems';
import { words } from '../../words';
import { Passphrase } from './passphrase';

/** What the sender has to do about it. */
const ASK = ['tampered', 'lockedDamaged'];

export function UnlockCase() {
  const t = words.caseFile;
  const passphrase = useSignal('');
  const trying = useSignal(false);
  const waiting = waitingFile.value;
  if (!waiting) return null;
  const open = async () => {
    trying.value = true;
    try {
      if (await unlockWaiting(passphrase.value)) dialog.value = null;
    } catch (error) {
      report(t.openFailed(waiting.name), error);
      dialog.value = null;
    } finally {
      trying.value = false;
    }
  };
  const { fault } = waiting;
  return (
    <form class="save-case" onSubmit={(e) => (e.preventDefault(), void open())}>
      <p>{t.unlockWhy(waiting.name)}</p>
      <Passphrase first label={t.passphraseLabel} value={passphrase.value} put={(text) => (passphrase.value = text)} />
      {fault && (
        <p role="alert">
          {t.fault.texts[fault]} {ASK.includes(fault) ? t.sendAgain : fault === 'noCipher' ? t.noCipherAdvice : ''}
        </p>
      )}
      <button type="submit" class="primary" disabled={trying.value || passphrase.value === ''}>{t.unlockNow}</button>
    </form>
  );
}
