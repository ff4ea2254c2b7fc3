/** A swatch is entered: typed, or read from photos. It waits half-finished as long as it has to. */
import { useSignal } from '@preact/signals';
import { nameIn, stainNames } from '../../state/stains/book';
import { COATS, faultsOf, isBlank, type Draft } from '../../state/stains/draft';
import { draft, dropDraft, editDraft, keepDraft, ownBook } from '../../state/stains/swatches';
import { words } from '../../words';
import { LabFields } from '../lab_fields';
import { TextField } from '../text_field';
import { Stepper } from '../stepper';
import { FromPhoto } from './from_photo';

function Colour({ now, part, asked }: { now: Draft; part: 'base' | 'after'; asked: boolean }) {
  const t = words.swatches.form;
  const from = part === 'base' ? now.baseFrom : now.afterFrom;
  return (
    <div class="lab-row">
      <span>{t[part]}</span>
      <LabFields text={now[part]} asked={asked} label={(axis) => t.field(t[part], axis)} put={(text) => editDraft({ [part]: text, ...(part === 'base' ? { baseFrom: '', baseAt: undefined } : { afterFrom: '', afterAt: undefined }) })} />
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
  const there = nameIn(ownBook.value, now.stain);
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
            <input value={now.stain} list="stain-names" autocomplete="off" aria-invalid={faults.includes('stain') || faults.includes('long')} onInput={(e) => editDraft({ stain: e.currentTarget.value })} />
            <datalist id="stain-names">{stainNames(ownBook.value).map((name) => <option key={name} value={name} />)}</datalist>
            {there !== now.stain.trim() && <small>{t.goesTo(there)}</small>}
          </label>
        )}
        <Stepper value={now.coats} label={t.coats} min={COATS.min} max={COATS.max} step={COATS.step} large={1} refused={now.wrongCoats} refuse={(wrongCoats) => wrongCoats !== (now.wrongCoats ?? '') && editDraft({ wrongCoats })} put={(coats) => editDraft({ coats, wrongCoats: '' })} />
      </div>
      <Colour now={now} part="base" asked={faults.includes('base')} />
      <Colour now={now} part="after" asked={faults.includes('after')} />
      {!isBlank(now.base) && isBlank(now.after) && <p class="hint">{t.waits}</p>}
      <FromPhoto />
      <div class="fields">
        <label>
          {t.doubt}
          <input value={now.doubt} inputMode="decimal" autocomplete="off" aria-invalid={faults.includes('doubt')} onInput={(e) => editDraft({ doubt: e.currentTarget.value })} />
        </label>
        <TextField class="wide" label={t.note} value={now.note} max={200} put={(note) => editDraft({ note })} />
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
