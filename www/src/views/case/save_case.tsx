/** What goes into the file of the case, and whether it is encrypted. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { caseDesk } from '../../engine/case_instance';
import type { KeptAs } from '../../engine/case_types';
import { shortest } from '../../charts/format';
import { current } from '../../state/case/at_hand';
import { canLock } from '../../state/case/locked';
import { mayNotSave, nothingToSave, roughSize, saveCase, savingAt } from '../../state/case/save_case';
import { dialog } from '../../state/dialogs';
import { busy } from '../../state/status';
import { words } from '../../words';
import { fileNameOf, saveBlob } from '../pick_file';
import { Passphrase } from './passphrase';
import { TextField } from '../text_field';

const CHOICES: readonly KeptAs[] = ['original', 'reduced', 'absent'];
/** Shorter ones are found by trying. */
const SHORT = 12;

const sizeText = (bytes: number): string => words.caseFile.size(words.caseFile.megabytes(shortest(Math.max(0.1, bytes / 1e6), 1)));

function give(label: string, file: Blob): string {
  const name = `${fileNameOf(label) || words.caseFile.fileName}.tabside`;
  saveBlob(name, file);
  return name;
}

function Photos({ kept, put }: { kept: KeptAs; put: (kept: KeptAs) => void }) {
  const t = words.caseFile;
  return (
    <fieldset>
      <legend>{t.photos}</legend>
      {CHOICES.map((choice) => (
        <label class="radio" key={choice}>
          <input type="radio" name="kept" checked={kept === choice} onChange={() => put(choice)} />
          <span>
            {t.kept.texts[choice]} <small>{sizeText(roughSize(choice))}</small>
          </span>
        </label>
      ))}
      <p class="hint">{t.keptHint.texts[kept]}</p>
    </fieldset>
  );
}

function Encrypted({ value, put }: { value: string; put: (text: string) => void }) {
  const t = words.caseFile;
  return (
    <div>
      <Passphrase fresh label={t.passphrase} value={value} disabled={!canLock()} put={put} />
      <p class="hint">{canLock() ? t.passphraseHint : `${t.fault.texts.noCipher} ${t.noCipherAdvice}`}</p>
      {value !== '' && value.length < SHORT && <p class="hint" role="status">{t.weak}</p>}
    </div>
  );
}

export function SaveCase() {
  const t = words.caseFile;
  const label = useSignal(current.value?.label ?? '');
  const photos = useSignal<KeptAs>('original');
  const passphrase = useSignal('');
  useEffect(() => caseDesk.begin(), []);
  if (mayNotSave()) return <p>{t.readOnly}</p>;
  if (nothingToSave()) return <p>{t.nothing}</p>;
  const at = savingAt.value;
  const running = busy.value?.label === t.saving;
  const save = async () => {
    const done = await saveCase({ label: label.value, photos: photos.value, passphrase: passphrase.value }, give);
    if (done) dialog.value = null;
  };
  return (
    <form class="save-case" onSubmit={(e) => (e.preventDefault(), void save())}>
      <p>{t.why}</p>
      <div>
        <TextField label={t.label} value={label.value} put={(text) => (label.value = text)} />
        <p class="hint">{t.labelHint}</p>
      </div>
      <Photos kept={photos.value} put={(kept) => (photos.value = kept)} />
      <Encrypted value={passphrase.value} put={(text) => (passphrase.value = text)} />
      <div class="chips">
        <button type="submit" class="primary" disabled={running}>{t.saveNow}</button>
        {running && <button type="button" onClick={() => busy.value?.cancel()}>{words.busy.cancel}</button>}
        {running && <span role="status">{at ? t.reading(at.at, at.of) : t.saving}</span>}
      </div>
    </form>
  );
}
