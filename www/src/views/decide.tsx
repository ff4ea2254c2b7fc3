/** Where the decision is taken: what to mind before it, and what comes next. */
import { openPatient, patientPossible } from '../state/patient/patient';
import { photoRetake, sheet } from '../state/sheet';
import { reading } from '../state/reading';
import { showMode } from '../state/ui';
import { words } from '../words';

const judged = () => !photoRetake.value && (sheet.value?.rows.some((row) => row.advice ?? row.nearest) ?? false);

/** Always in sight under the answer, within reach of a thumb. */
export function NextBar() {
  if (!reading.value || !judged()) return null;
  const t = words.sheet.next;
  const judging = sheet.value?.advice !== undefined;
  return (
    <nav class="next-bar" aria-label={t.title}>
      <p class="mind">{words.sheet.decide.short}</p>
      {judging && (
        <button type="button" class="primary" onClick={() => showMode('plan')}>
          {t.plan}
        </button>
      )}
      {judging && patientPossible.value && (
        <button type="button" data-tour="patient" onClick={openPatient}>
          {t.patient}
        </button>
      )}
      <button type="button" class="print" onClick={() => window.print()}>
        {t.print}
      </button>
    </nav>
  );
}

export function Decide() {
  if (!reading.value || !judged()) return null;
  const t = words.sheet.decide;
  return (
    <section class="decide">
      <h2>{t.title}</h2>
      <ul>
        {t.points.map((point) => (
          <li key={point}>{point}</li>
        ))}
      </ul>
    </section>
  );
}
