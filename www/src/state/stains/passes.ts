/** Fired passes of the job at hand: taken from the open photo, looked back at, learned from, followed by the next. */
import { computed } from '@preact/signals';
import { desk } from '../../engine/instance';
import type { SwatchBook } from '../../engine/types';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { fixed } from '../../charts/format';
import { isDemo } from '../demo';
import { change, photo, scene } from '../desk';
import { really } from '../passes/coats';
import { underStains } from '../passes/foundation';
import { spotsOf } from '../passes/frame';
import type { KeptPass } from '../passes/kept_pass';
import { holds, withoutSwatches, withSwatches } from '../passes/learned';
import { isLookedAt, isStart, isStrange, nextZones, paintedOf, passOf, startsFrom, swatchesOf, targetDrift, type Seen } from '../passes/pass_model';
import { report } from '../problems';
import { reading } from '../reading';
import { sheet } from '../sheet';
import { say, whileBusy } from '../status';
import { book, planAnew, stains, work, type Work } from './work';

const idOf = (role: 'restoration' | 'target') => sheet.value?.pictures.find((p) => p.role === role)?.region.id;

/** Restoration and target in the open photo, as far as they can be read. */
export const seen = computed<Seen | null>(() => {
  const current = reading.value;
  const [restoration, target] = [idOf('restoration'), idOf('target')];
  if (!current || restoration === undefined) return null;
  const found = { restoration: spotsOf(current.report, restoration), target: spotsOf(current.report, target) };
  return Object.keys(found.restoration).length > 0 ? found : null;
});

/** How they are called there; no target where none could be read. */
export const seenNames = computed(() => {
  const [shows, restoration, target] = [seen.value, idOf('restoration'), idOf('target')];
  if (!shows || restoration === undefined) return null;
  const known = target !== undefined && Object.keys(shows.target).length > 0;
  return { restoration: words.names.region(scene.value, restoration), target: known ? words.names.region(scene.value, target) : null };
});

/** How far the target in the open photo is from that of the plan, ΔE*ab. */
export const seenDrift = computed(() => (work.value && seen.value ? targetDrift(work.value.zones, seen.value) : 0));

export const lastPass = computed(() => work.value?.passes.at(-1));

/** The plan starts from the result of the last pass. */
export const nextPlanned = computed(() => work.value !== null && lastPass.value !== undefined && startsFrom(work.value.zones, lastPass.value));

/** The plan that is shown was painted and fired: its result is known, the next is not planned. */
export const passFired = computed(() => lastPass.value !== undefined && !nextPlanned.value);

/** The plan waits for its result: nothing was recorded since it was made. */
export const passOpen = computed(() => work.value !== null && work.value.plan.firings > 0 && !passFired.value);

/** Why the open photo is no result, in words; empty when it can be one. */
export const notFired = computed(() => {
  const t = words.passes;
  if (!photo.value) return t.noPhoto;
  if (!seen.value) return t.noReading;
  return work.value && isStart(work.value.zones, seen.value) ? t.isStart : '';
});

/** Its swatches stand in the book: the strengths learn from it. */
export const isLearned = ({ swatches }: KeptPass): boolean => holds(book.value, swatches);

/** Book and job in one step of undo. */
function put(label: string, next: SwatchBook, job: Partial<Work>): void {
  const now = stains.value;
  const books = now.lent ? { lent: next } : { own: next };
  if (now.work) change(label, { stains: { ...now, ...books, work: { ...now.work, ...job } } });
}

/** The same of the fired result: nor is it the photo from before firing. */
export const notResult = computed(() => {
  const looked = work.value?.unfired;
  return notFired.value || (looked && seen.value && isLookedAt(looked, seen.value) ? words.passes.isUnfired : '');
});

/** The look before firing, unless its photo may show another tooth. */
const sureLook = ({ zones, unfired }: Work) => (unfired && !isStrange(targetDrift(zones, { restoration: unfired.spots, target: unfired.target })) ? unfired : null);

export async function recordPass(): Promise<void> {
  const [now, shows, open] = [work.value, seen.value, photo.value];
  if (!now || !shows || !open || notResult.value || !passOpen.value) return;
  const t = words.passes;
  const n = now.passes.length + 1;
  try {
    const noted = (note: string) => (isDemo(open) ? `${words.swatches.demoNote}: ${note}` : note);
    const made = passOf(now.zones, await really(paintedOf(now.plan), now), now.plan.limits, shows);
    const drift = targetDrift(now.zones, shows);
    const swatches = swatchesOf(made.pass, now.zones, await underStains(book.value, made.pass), sureLook(now), (zone) => noted(t.note(now.label, n, zone)));
    // What may be the photo of another tooth teaches nothing unless the user says so.
    const known = isStrange(drift) ? book.value : withSwatches(book.value, swatches);
    const review = await whileBusy(t.busy, (signal) => desk.stains.reviewPass(known, made.pass, { signal }));
    if (!review || work.value !== now) return;
    const kept: KeptPass = { ...made, review, swatches, drift, photo: open.name, at: new Date().toISOString() };
    put(t.edits.record(n), known, { passes: [...now.passes, kept], unfired: null });
    say([isStrange(drift) ? t.strange(fixed(drift)) : '', engineWords(review.words)].filter(Boolean).join(' '));
  } catch (error) {
    report(t.failed, error);
  }
}

export async function planNextPass(): Promise<void> {
  const [now, last] = [work.value, lastPass.value];
  if (!now || !last) return;
  const t = words.passes;
  const n = now.passes.length + 1;
  try {
    await planAnew(t.edits.next(n), nextZones(last), { unfired: null });
    say(t.said.next(n));
  } catch (error) {
    report(t.nextFailed, error);
  }
}

/** The last one, as long as nothing was planned from it. */
export function takePassBack(): void {
  const [now, last] = [work.value, lastPass.value];
  if (!now || !last || nextPlanned.value) return;
  const n = now.passes.length;
  put(words.passes.edits.takeBack(n), withoutSwatches(book.value, last.swatches), { passes: now.passes.slice(0, -1) });
  say(words.passes.said.takenBack(n));
}

export function learnFrom(kept: KeptPass, n: number, on: boolean): void {
  if (isLearned(kept) === on) return;
  const rest = withoutSwatches(book.value, kept.swatches);
  put(words.passes.edits.learn(n, on), on ? withSwatches(rest, kept.swatches) : rest, {});
  say(words.passes.said.learn(n, on));
}
