/** The book of swatches: what the stains at hand do, and where that is known from. */
import { fixed } from '../../charts/format';
import { mixSwatches, otherChecks, stainNames } from '../../state/stains/book';
import { fitProblem, fitted } from '../../state/stains/fitted';
import { lentInUse, draft, emptyBook, leaveLent, nameBook, ownBook, startDraft, takeDemo, takeLent } from '../../state/stains/swatches';
import { book } from '../../state/stains/work';
import { words } from '../../words';
import { pickSwatches, saveSwatches } from '../actions';
import { focusOn } from '../focus_on';
import { SwatchForm } from './form';
import { TextField } from '../text_field';
import { Stain } from './stain';
import { Findings, showForm, SwatchRows } from './swatch_rows';

function Tools() {
  const t = words.swatches;
  const add = () => {
    if (!draft.value) startDraft();
    showForm();
  };
  if (lentInUse.value && !book.value.demo) {
    return (
      <div class="demo-note">
        <p class="demo-line" id="lent-banner">{t.lentBanner}</p>
        <p class="hint">{t.lentMore}</p>
        <div class="chips">
          <button type="button" onClick={leaveLent}>{t.leaveLent}</button>
          <button type="button" onClick={takeLent}>{t.takeLent}</button>
        </div>
      </div>
    );
  }
  if (lentInUse.value) {
    return (
      <div class="demo-note">
        <p class="demo-line" id="demo-banner" tabIndex={-1}>{t.demoBanner}</p>
        <p class="hint">{t.demoMore}</p>
        <button type="button" onClick={leaveLent}>{t.leaveDemo}</button>
      </div>
    );
  }
  const empty = ownBook.value.swatches.length + ownBook.value.stains.length === 0;
  return (
    <div class="chips">
      <button type="button" class="primary" onClick={add}>{t.add}</button>
      <button type="button" onClick={pickSwatches}>{t.open}</button>
      {!empty && <button type="button" onClick={saveSwatches}>{t.save}</button>}
      <button type="button" onClick={() => void takeDemo().then(() => focusOn('demo-banner'))}>{t.useDemo}</button>
    </div>
  );
}

function Foot() {
  const t = words.swatches;
  if (lentInUse.value || ownBook.value.swatches.length === 0) return null;
  return (
    <div class="book-foot">
      <TextField label={t.bookName} value={ownBook.value.name ?? ''} put={nameBook} />
      <button type="button" onClick={emptyBook}>{t.empty}</button>
      <p class="hint">{t.kept}</p>
    </div>
  );
}

export function SwatchesView() {
  const t = words.swatches;
  const names = stainNames(book.value);
  const found = fitted.value;
  const failed = fitProblem.value;
  const mixes = mixSwatches(book.value);
  const waiting = book.value.swatches.length > 0 && !found && !failed;
  return (
    <section class="panel swatches" id="swatches" tabIndex={-1} aria-label={t.title} aria-busy={waiting}>
      <p class="hint">{t.why}</p>
      <Tools />
      {!lentInUse.value && <SwatchForm />}
      {names.length === 0 && <p class="waiting">{t.none}</p>}
      {failed && <div class="reason"><strong>{failed.title}</strong><p>{failed.text} {failed.advice}</p></div>}
      {found && <Findings checks={otherChecks(found.checks)} />}
      {waiting && <p class="hint">{t.waiting}</p>}
      {names.length > 0 && (
        <section>
          <h2>{t.stains}</h2>
          <ul class="stains">{names.map((name) => <Stain key={name} name={name} />)}</ul>
        </section>
      )}
      {mixes.length > 0 && <section><h2>{t.mixes}</h2><SwatchRows rows={mixes} /></section>}
      {found && found.reading_noise > 0 && <p class="hint">{t.noise(fixed(found.reading_noise))}</p>}
      {found?.fired_shift && <p class="hint">{t.shift(found.fired_shift.pairs, found.fired_shift.usable)}</p>}
      <Foot />
    </section>
  );
}
