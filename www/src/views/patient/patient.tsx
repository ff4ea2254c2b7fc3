/** The tablet turned round: two pictures, three words to choose from, one plain sentence, a way back. */
import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { inventedPlan, said } from '../../state/patient/facts';
import { asking } from '../../state/patient/leaving';
import { look, startLooks } from '../../state/patient/looks';
import { patientOpen, patientWhyNot } from '../../state/patient/patient';
import { callIt, thing, THINGS } from '../../state/patient/thing';
import { words } from '../../words';
import { Back, Question } from './back';
import { Choices, Slide } from './choices';
import { guard } from './guard';
import { Pictures } from './pictures';

/** For the clinician: gone before the patient looks. */
function Setup({ done }: { done: () => void }) {
  const t = words.patient;
  return (
    <div class="patient-setup">
      <span id="patient-setup">{t.setup}</span>
      <div class="segments" role="group" aria-labelledby="patient-setup">
        {THINGS.map((which) => (
          <button type="button" key={which} aria-pressed={thing.value === which} onClick={() => callIt(which)}>
            {t.kinds[which]}
          </button>
        ))}
      </div>
      <button type="button" class="primary" onClick={done}>
        {t.ready}
      </button>
    </div>
  );
}

/** What the pictures show, where it has to be said. */
function shownText(): string {
  const t = words.patient;
  const difference = said.value?.difference;
  if (look.value === 'now') return '';
  if (look.value === 'painted' && inventedPlan.value) return t.inventedShown;
  const text = t.shown[look.value];
  return look.value === 'grey' && difference?.kind === 'differs' && difference.colourOnly ? `${text} ${t.inColour}` : text;
}

function Sentence() {
  const t = words.patient;
  return (
    <div class="patient-words" role="status">
      <p class="patient-sentence">{said.value ? t.said(said.value, thing.value) : patientWhyNot.value}</p>
      <p>
        {shownText()} {t.decides}
      </p>
    </div>
  );
}

function Screen() {
  const dialog = useRef<HTMLDialogElement>(null);
  const handed = useSignal(false);
  useLayoutEffect(() => guard(dialog.current!), []);
  useLayoutEffect(startLooks, []);
  const done = () => {
    handed.value = true;
    dialog.current?.focus();
  };
  return (
    <dialog class="patient" ref={dialog} tabIndex={-1} aria-label={words.patient.title}>
      <div class="patient-screen" inert={asking.value}>
        {handed.value ? null : <Setup done={done} />}
        <Pictures />
        <div class="patient-below">
          <div class="patient-looks">
            <Choices />
            <Slide />
          </div>
          <Sentence />
          <Back />
        </div>
      </div>
      <Question />
    </dialog>
  );
}

export const PatientView = () => (patientOpen.value ? <Screen /> : null);
