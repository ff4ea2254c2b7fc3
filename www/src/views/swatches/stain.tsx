/** One stain: what one coat of it does, and what it was learned from. */
import { useSignal } from '@preact/signals';
import { fixed, percent } from '../../charts/format';
import { checksOfStain, checksOn, infoOf, swatchesOf } from '../../state/stains/book';
import { fitted } from '../../state/stains/fitted';
import { lentInUse, describeStain, removeStain, renameStain, startDraft } from '../../state/stains/swatches';
import { book } from '../../state/stains/work';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { Chips } from '../chips';
import { coatsOf, labText } from '../plan/said';
import { Switch } from '../switch';
import { TextField } from '../text_field';
import { Findings, showForm, SwatchRows } from './swatch_rows';

function Settings({ name }: { name: string }) {
  const t = words.swatches;
  const taken = useSignal(false);
  const info = infoOf(book.value, name);
  return (
    <div class="stain-settings">
      <div class="fields">
        <label>
          {t.rename}
          <input value={name} autocomplete="off" aria-invalid={taken.value} onChange={(e) => (taken.value = !renameStain(name, e.currentTarget.value))} />
        </label>
        <TextField class="wide" label={t.stainNote} value={info.note ?? ''} max={200} put={(note) => describeStain(name, { note }, `note of ${name}`)} />
      </div>
      {taken.value && <p role="status">{t.renameTaken}</p>}
      <Switch on={info.glaze ?? false} text={t.isGlaze} turn={(glaze) => describeStain(name, { glaze })} />
      <Switch on={info.resting ?? false} text={t.isResting} turn={(resting) => describeStain(name, { resting })} />
      <div class="chips">
        <button type="button" aria-label={t.addOf(name)} onClick={() => { startDraft(name); showForm(); }}>{t.add}</button>
        <button type="button" aria-label={t.removeLong(name)} onClick={() => removeStain(name)}>{t.remove}</button>
      </div>
    </div>
  );
}

export function Stain({ name }: { name: string }) {
  const t = words.swatches;
  const found = fitted.value?.strengths.find((s) => s.stain === name);
  const checks = fitted.value?.checks ?? [];
  const info = infoOf(book.value, name);
  const rows = swatchesOf(book.value, name);
  // What concerns one swatch stands beside it; unfolded it need not be said twice.
  const open = useSignal(false);
  const ofRows = rows.flatMap(({ swatch, at }, i) => checksOn(checks, at).map((c) => ({ ...c, text: `${t.nth(i + 1, coatsOf(swatch.coats))}: ${engineWords(c.text)}` })));
  const said = [...checksOfStain(checks, name), ...(open.value ? [] : ofRows)];
  return (
    <li class="stain" data-stain={name}>
      <h3>{name} {info.glaze && <small>{t.glaze}</small>} {info.resting && <small>{t.resting}</small>}</h3>
      {info.note && <p class="soft">{info.note}</p>}
      {found ? (
        <div class="strength">
          <Chips labs={[found.base, found.one_coat]} label={t.chip(labText(found.base), labText(found.one_coat))} />
          <div>
            <p>{engineWords(found.words)}; {found.lightens ? t.lightens : t.noLight}</p>
            <p class="soft">{t.oneCoat(t.doubt(fixed(found.doubt)))}; {t.hides(percent(found.opacity))}; {t.count(found.swatches)}</p>
          </div>
        </div>
      ) : (
        (fitted.value || rows.length === 0) && <p class="soft">{t.noStrength}</p>
      )}
      <Findings checks={said} />
      <details open={open.value} onToggle={(e) => (open.value = e.currentTarget.open)}>
        <summary aria-label={t.settingsOf(name)}>{t.settings}</summary>
        {open.value && <SwatchRows rows={rows} />}
        {open.value && !lentInUse.value && <Settings name={name} />}
      </details>
    </li>
  );
}
