/** What stands before the patient: the two regions, the plan that is about them, and what is said. */
import { computed } from '@preact/signals';
import type { Plan } from '../../engine/types';
import { words } from '../../words';
import { scene } from '../desk';
import { reading } from '../reading';
import { regionById } from '../shapes';
import { sheet } from '../sheet';
import { demoSwatches } from '../stains/book';
import { compared } from '../stains/comparison';
import { differenceDoubt, shownPlan } from '../stains/planning';
import type { Third } from '../stains/typed_plan';
import { book } from '../stains/work';
import { sideBySide } from './neighbours';
import { remedyOf, type Remedy } from './remedy_model';
import { differenceOf, type Compared, type Difference } from './sentence_model';

export type Beside = 'neighbour' | 'tooth' | 'sample';

export interface Said {
  readonly difference: Difference;
  readonly remedy: Remedy | null;
  /** What it is compared with. */
  readonly beside: Beside;
  /** Not every third could be compared. */
  readonly partly: boolean;
}

/** The plan from these very colours to those; any other would be about something else. */
export const patientPlan = computed<Plan | null>(() => {
  const [plan, now] = [shownPlan.value, compared.value];
  if (!plan || !now || plan.zones.length !== now.zones.length) return null;
  const colours = (z: { zone: string; from: unknown; to: unknown } | undefined) => JSON.stringify([z?.zone, z?.from, z?.to]);
  return plan.zones.every((planned) => colours(planned) === colours(now.zones.find((z) => z.zone === planned.zone))) ? plan : null;
});

/** It stands on values that nobody measured. */
export const inventedPlan = computed(() => patientPlan.value !== null && (patientPlan.value.demo || demoSwatches(book.value, words.swatches.demoNote) > 0));

export const pair = computed(() => {
  const [restoration, target] = [compared.value?.restoration, compared.value?.target].map((id) => regionById(reading.value?.report.scene ?? scene.value, id));
  return restoration && target ? { restoration, target } : null;
});

function thirdsCompared(): Compared[] {
  const target = reading.value?.report.readings.find((r) => r.region === compared.value?.target)?.zones;
  return (sheet.value?.advice?.zones ?? []).flatMap((advice) => {
    const zone = advice.zone as Third;
    const wanted = target?.[zone];
    return wanted ? [{ ...advice, zone, hue_deg: wanted.hue_deg, chroma: wanted.chroma }] : [];
  });
}

export const said = computed<Said | null>(() => {
  const [both, plan] = [pair.value, inventedPlan.value ? null : patientPlan.value];
  if (!both) return null;
  const thirds = thirdsCompared();
  const difference = differenceOf(thirds);
  const beside = both.target.kind === 'tab' ? 'sample' : sideBySide(both.restoration, both.target) ? 'neighbour' : 'tooth';
  return { difference, remedy: remedyOf(difference, plan && { ...plan, doubts: plan.zones.map(differenceDoubt) }), beside, partly: thirds.length < 3 };
});
