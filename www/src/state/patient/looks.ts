/** How the two pictures are looked at, and the calculated one after painting. None of it is undone. */
import { computed, effect, signal, untracked } from '@preact/signals';
import type { Plan, Preview } from '../../engine/types';
import { desk } from '../../engine/instance';
import { latestOnly } from '../latest';
import { reading, type Reading } from '../reading';
import { HEIGHT_PX, pictures } from '../sheet';
import { book } from '../stains/work';
import { pair, patientPlan } from './facts';
import { greyOf } from './grey';

export type Look = 'now' | 'grey' | 'painted';
const wanted = signal<Look>('now');
/** How far from now to after painting, in per cent. */
export const painting = signal(100);

const painted = signal<{ plan: Plan; region: string; picture: Preview | null } | null>(null);
/** The restoration as the plan predicts it; none while it is made or cannot be made. */
export const after = computed(() => {
  const made = painted.value;
  return made && made.plan === patientPlan.value && made.region === pair.value?.restoration.id ? made.picture : null;
});

/** With nothing to paint there is nothing to see after painting. */
export const looks = computed<Look[]>(() => ['now', 'grey', ...(after.value ? (['painted'] as const) : [])]);
export const look = computed<Look>(() => (looks.value.includes(wanted.value) ? wanted.value : 'now'));

export function lookAt(next: Look): void {
  wanted.value = next;
  painting.value = 100;
}

/** Target and restoration as they are looked at; none until both are there. */
export const shown = computed(() => {
  const [target, restoration] = [pair.value?.target, pair.value?.restoration].map((region) => region && pictures.value.get(region.id));
  if (!target || !restoration) return null;
  return look.value === 'grey' ? { target: greyOf(target), restoration: greyOf(restoration) } : { target, restoration };
});

interface Wanted {
  now: Reading;
  plan: Plan;
  region: string;
}

const make = latestOnly<Wanted>(async ({ now: { doc, report }, plan, region }) => {
  if (!doc.photo) return;
  const request = { ...doc, photo: doc.photo, scene: report.scene };
  // Without the picture there is one choice less; what is wrong with the plan is said beside the plan.
  const picture = await desk.plannedPicture(request, { region, book: book.value, zones: plan.zones }, HEIGHT_PX).catch(() => null);
  painted.value = { plan, region, picture };
});

/** While the view is open. */
export function startLooks(): () => void {
  lookAt('now');
  return effect(() => {
    const [now, plan, region] = [reading.value, patientPlan.value, pair.value?.restoration.id];
    if (now && region && plan?.zones.some((z) => z.paint.coats > 0)) untracked(() => make({ now, plan, region }));
  });
}
