/** The look before firing: what is painted, read from the open photo, kept until the fired result is there. */
import { computed } from '@preact/signals';
import { desk } from '../../engine/instance';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { photo } from '../desk';
import { paintedOf, targetDrift, unfiredOf } from '../passes/pass_model';
import { report } from '../problems';
import { say, whileBusy } from '../status';
import { really } from '../passes/coats';
import { notFired, passOpen, seen } from './passes';
import { book, changeWork, work } from './work';

export const unfiredLook = computed(() => work.value?.unfired ?? null);

/** How far the target in its photo is from that of the plan, ΔE*ab. */
export const lookDrift = computed(() => {
  const [now, look] = [work.value, unfiredLook.value];
  return now && look ? targetDrift(now.zones, { restoration: look.spots, target: look.target }) : 0;
});

export async function lookUnfired(): Promise<void> {
  const [now, shows, open] = [work.value, seen.value, photo.value];
  if (!now || !shows || !open || notFired.value || !passOpen.value) return;
  const t = words.unfired;
  try {
    const request = unfiredOf(now.zones, await really(paintedOf(now.plan), now), shows);
    const look = await whileBusy(t.busy, (signal) => desk.stains.lookUnfired(book.value, request, { signal }));
    if (!look || work.value !== now) return;
    changeWork(words.passes.edits.look, { unfired: { spots: shows.restoration, target: shows.target, look, photo: open.name, at: new Date().toISOString() } });
    say([engineWords(look.words), ...look.zones.map((z) => `${words.names.zone[z.zone]}: ${engineWords(t.third(z, look.directions_only))}`)].join(' '));
  } catch (error) {
    report(t.failed, error);
  }
}

export function forgetUnfired(): void {
  if (!unfiredLook.value) return;
  changeWork(words.passes.edits.forget, { unfired: null });
  say(words.passes.said.forgotten);
}
