/** The view for the patient: whether it can be shown, and what its restoration is called. */
import { computed, signal } from '@preact/signals';
import { words } from '../../words';
import { comparison } from '../stains/comparison';
import { problem } from '../status';

export const patientOpen = signal(false);

/** Restoration and target can be trusted and compared. */
export const patientPossible = computed(() => !('why' in comparison.value));

/** Why not, in a sentence; empty when it can be shown. */
export const patientWhyNot = computed(() => {
  const now = comparison.value;
  if (!('why' in now)) return '';
  return 'text' in now ? now.text : words.plan.refused.texts[now.why];
});

/** Shows it, or says why not. */
export function openPatient(): void {
  if (patientPossible.value) patientOpen.value = true;
  else problem.value = { title: words.patient.notYet, text: patientWhyNot.value, advice: '' };
}
