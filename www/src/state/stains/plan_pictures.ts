/** What the plan would look like: the restoration as predicted, upright and laid over the photo. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { desk } from '../../engine/instance';
import type { Patch, Plan, Preview } from '../../engine/types';
import { words } from '../../words';
import { latestOnly } from '../latest';
import { describe } from '../problems';
import { reading, type Reading } from '../reading';
import { HEIGHT_PX } from '../sheet';
import { say } from '../status';
import { mode, side } from '../ui';
import { compared } from './comparison';
import { shownPlan } from './planning';
import { book } from './work';

/** How much of the picture shows after, in per cent from its left; the rest shows before. */
export const divider = signal(100);
const asked = signal(false);

export const predicted = signal<Preview | null>(null);
export const patch = signal<Patch | null>(null);
export const pictureProblem = signal<string | null>(null);

/** The region that the plan is about, when the open photo shows it as it was before painting. */
export const planRegion = computed<string | null>(() => {
  const [plan, now] = [shownPlan.value, compared.value];
  const alike = plan && now && plan.zones.every(({ zone, from }) => JSON.stringify(from) === JSON.stringify(now.zones.find((z) => z.zone === zone)?.from));
  return alike ? now.restoration : null;
});

export const onPhoto = computed(() => asked.value && planRegion.value !== null && mode.value === 'plan');

export function showOnPhoto(on: boolean): void {
  asked.value = on;
  // On a phone the photo is another side.
  side.value = on ? 'photo' : 'sheet';
  say(on ? words.plan.onPhotoDone : words.plan.offPhoto);
}

/** About as many pixels as a tooth takes on a large screen. */
const MAX_PX = 600_000;

interface Wanted {
  reading: Reading;
  region: string;
  plan: Plan;
  laid: boolean;
}

let done: { wanted: Wanted; over: boolean } | null = null;

const make = latestOnly<Wanted>(async (wanted) => {
  const { doc, report } = wanted.reading;
  const known = done?.wanted.reading === wanted.reading && done.wanted.plan === wanted.plan && done.wanted.region === wanted.region;
  if (!doc.photo || (known && (done!.over || !wanted.laid))) return;
  const request = { ...doc, photo: doc.photo, scene: report.scene };
  const planned = { region: wanted.region, book: book.value, zones: wanted.plan.zones };
  try {
    if (!known) {
      patch.value = null;
      predicted.value = await desk.plannedPicture(request, planned, HEIGHT_PX);
    }
    if (wanted.laid) patch.value = await desk.plannedPatch(request, planned, MAX_PX);
    pictureProblem.value = null;
    done = { wanted, over: wanted.laid };
  } catch (error) {
    predicted.value = patch.value = done = null;
    pictureProblem.value = describe(error).text;
  }
});

export function startPlanPictures(): () => void {
  return effect(() => {
    const [now, plan, region] = [reading.value, shownPlan.value, planRegion.value];
    if (!now || !plan || !region || mode.value !== 'plan') {
      if (!now || !region) predicted.value = patch.value = done = null;
      return;
    }
    const wanted = { reading: now, region, plan, laid: onPhoto.value };
    untracked(() => make(wanted));
  });
}
