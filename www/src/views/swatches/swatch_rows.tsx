/** Swatches one by one, each with what was found about it beside it. */
import { fixed } from '../../charts/format';
import type { Swatch, SwatchCheck } from '../../engine/types';
import { checksOn } from '../../state/stains/book';
import { fitted } from '../../state/stains/fitted';
import { lentInUse, removeSwatch, reviseSwatch } from '../../state/stains/swatches';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { Chips } from '../chips';
import { coatsOf, labText } from '../plan/said';

export function Findings({ checks }: { checks: readonly SwatchCheck[] }) {
  if (checks.length === 0) return null;
  return (
    <ul class="findings">
      {checks.map((c) => (
        <li key={c.code + c.text} class={c.severity}>
          <strong>{words.swatches.severity[c.severity]}</strong> {engineWords(c.text)} <em>{engineWords(c.remedy)}</em>
        </li>
      ))}
    </ul>
  );
}

/** Brings the form into sight. */
export function showForm(): void {
  requestAnimationFrame(() => {
    const form = document.getElementById('swatch-form');
    form?.scrollIntoView({ block: 'start' });
    form?.focus({ preventScroll: true });
  });
}

function Row({ swatch, at, n }: { swatch: Swatch; at: number; n: number }) {
  const t = words.swatches;
  const { base, after, coats, mix, doubt, note = '' } = swatch;
  const what = t.line(mix ? Object.keys(mix).join(' + ') : (swatch.stain ?? ''), t.nth(n, coatsOf(coats)), note);
  const change = () => {
    reviseSwatch(at);
    showForm();
  };
  return (
    <li class="swatch-row">
      <Chips labs={[base, after]} label={t.chip(labText(base), labText(after))} />
      <div>
        <p><strong>{t.nth(n, coatsOf(coats))}</strong> {mix && Object.keys(mix).join(' + ')} <span class="soft">{note}</span></p>
        <p class="soft">{labText(base)} → {labText(after)}{doubt !== undefined && `, ${t.doubt(fixed(doubt))}`}</p>
        <Findings checks={checksOn(fitted.value?.checks ?? [], at)} />
      </div>
      {!lentInUse.value && (
        <div class="chips">
          <button type="button" aria-label={t.editLong(what)} onClick={change}>{t.edit}</button>
          <button type="button" aria-label={t.removeSwatchLong(what)} onClick={() => removeSwatch(at)}>{t.removeSwatch}</button>
        </div>
      )}
    </li>
  );
}

export function SwatchRows({ rows }: { rows: readonly { swatch: Swatch; at: number }[] }) {
  return <ul class="swatch-rows">{rows.map(({ swatch, at }, i) => <Row key={at} swatch={swatch} at={at} n={i + 1} />)}</ul>;
}
