/** A swatch is entered: typed, or read from photos. It waits half-finished as long as it has to. */
import { useSignal } from '@preact/signals';
import { stainNames } from '../../state/stains/book';
import { COATS, faultsOf, isBlank, type Draft } from '../../state/stains/draft';
import { draft, dropDraft, editDraft, keepDraft, ownBook } from '../../state/stains/swatches';
import { words } from '../../words';
import { LabFields } from '../lab_fields';
import { Stepper } from '../stepper';
import { FromPhoto } from './from_photo';

function Colour({ now, part, invalid }: { now: Draft; part: 'base' | 'after'; invalid: boolean }) {
  const t = words.swatches.form;
  const from = part === 'base' ? now.baseFrom : now.afterFrom;
  return (
    <div class="lab-row">
      <span>{t[part]}</span>
      <LabFields text={now[part]} invalid={invalid} label={(axis) => t.field(t[part], axis)} put={(text) => editDraft({ [part]: text, [part === 'base' ? 'baseFrom' : 'afterFrom']: '' })} />
      {from && <small>{t.from(from)}</small>}
    </div>
  );
}

export function SwatchForm() {
  const t = words.swatches.form;
  const tried = useSignal(false);
  const now = draft.value;
  if (!now) return null;
  const faults = tried.value ? faultsOf(now) : [];
  const keep = () => (tried.value = !keepDraft());
  const drop = () => {
    tried.value = false;
    dropDraft();
  };
  return (
    <section class="swatch-form" id="swatch-form" tabIndex={-1} aria-label={now.was === null ? t.title : t.change}>
      <h2>{now.was === null ? t.title : t.change}</h2>
      <p class="hint">{t.hint}</p>
      <div class="fields">
        {now.kept?.mix ? <p>{t.mix(Object.keys(now.kept.mix).join(' + '))}</p> : (
          <label>
            {t.stain}
            <input value={now.stain} list="stain-names" maxLength={60} autocomplete="off" aria-invalid={faults.includes('stain')} onInput={(e) => editDraft({ stain: e.currentTarget.value })} />
            <datalist id="stain-names">{stainNames(ownBook.value).map((name) => <option key={name} value={name} />)}</datalist>
          </label>
        )}
        <Stepper value={now.coats} label={t.coats} min={COATS.min} max={COATS.max} step={COATS.step} put={(coats) => editDraft({ coats })} />
      </div>
      <Colour now={now} part="base" invalid={faults.includes('base')} />
      <Colour now={now} part="after" invalid={faults.includes('after')} />
      {!isBlank(now.base) && isBlank(now.after) && <p class="hint">{t.waits}</p>}
      <FromPhoto />
      <div class="fields">
        <label>
          {t.doubt}
          <input value={now.doubt} inputMode="decimal" autocomplete="off" aria-invalid={faults.includes('doubt')} onInput={(e) => editDraft({ doubt: e.currentTarget.value })} />
        </label>
        <label class="wide">
          {t.note}
          <input value={now.note} maxLength={200} autocomplete="off" onInput={(e) => editDraft({ note: e.currentTarget.value })} />
        </label>
      </div>
      <div role="status" class="faults">
        {faults.length > 0 && <><strong>{t.missing}</strong><ul>{faults.map((f) => <li key={f}>{t.faults[f]}</li>)}</ul></>}
      </div>
      <div class="chips">
        <button type="button" class="primary" onClick={keep}>{t.save}</button>
        <button type="button" onClick={drop}>{t.cancel}</button>
      </div>
    </section>
  );
}
