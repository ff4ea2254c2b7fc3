/** Another outline for the same place: every further tap on a selected outline brings the next. */
import { computed, signal } from '@preact/signals';
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import type { FoundRegion, Point, Region } from '../engine/types';
import { words } from '../words';
import { axisLike } from './axis_way';
import { changeScene, photo, scene } from './desk';
import { noteBar } from './remarks';
import { distinctFrom } from './overlap';
import { report } from './problems';
import { reshaped, withRegion } from './scene_edit';
import { contains, middleOf, regionById, regionIdOf, regionKey } from './shapes';
import { whileBusy } from './status';
import { selected } from './ui';

type Option = Pick<Region, 'outline' | 'cervical' | 'incisal'>;

interface Round {
  open: OpenPhoto;
  id: string;
  /** What was there first, then the others. */
  options: Option[];
}

const round = signal<Round | null>(null);

/** Which of the options a region has now; −1 when it was changed since. */
const placeIn = ({ options }: Round, region: Region): number => options.findIndex((o) => JSON.stringify(o.outline) === JSON.stringify(region.outline));

/** "Outline 2 of 4", while that is what is selected. */
export const outlineCount = computed(() => {
  const now = round.value;
  const region = regionById(scene.value, regionIdOf(selected.value));
  if (!now || !region || region.id !== now.id || photo.value !== now.open || now.options.length < 2) return '';
  const at = placeIn(now, region);
  return at < 0 ? '' : words.found.outlineOf(at + 1, now.options.length);
});

/** Starts a round from choices that are known already. */
export function startRound(open: OpenPhoto, id: string, choices: readonly FoundRegion[]): void {
  const region = regionById(scene.value, id);
  if (!region) return;
  const beside = scene.value.regions.filter((r) => r !== region);
  const others = distinctFrom(region.outline, choices).map((choice) => reshaped(region, axisLike(choice, region, beside)));
  round.value = { open, id, options: [region, ...others] };
}

/** A place inside, for those who do not tap. */
function inside({ outline, cervical, incisal }: Region): Point {
  const axis: Point | null = cervical && incisal ? [(cervical[0] + incisal[0]) / 2, (cervical[1] + incisal[1]) / 2] : null;
  return [middleOf(outline), axis].find((p) => p && contains(outline, p)) ?? outline[0]!;
}

export async function nextOutline(id: string, at?: Point): Promise<void> {
  const open = photo.value;
  const before = regionById(scene.value, id);
  if (!open || !before) return;
  const known = round.value?.open === open && round.value.id === id && placeIn(round.value, before) >= 0;
  if (!known) {
    try {
      const choices = await whileBusy(words.busy.outlining, (signal) => desk.outlineChoices(open, at ?? inside(before), { signal }));
      if (!choices || photo.value !== open) return;
      startRound(open, id, choices);
    } catch (error) {
      return report(words.errors.outlineFailed(words.names.region(scene.value, id)), error, words.errors.outlineByHand);
    }
  }
  const now = round.value;
  const region = regionById(scene.value, id);
  if (!now || !region || now.id !== id) return;
  if (now.options.length < 2) return noteBar(regionKey(id), words.found.noOther);
  const next = (placeIn(now, region) + 1) % now.options.length;
  const { outline, cervical, incisal } = now.options[next]!;
  changeScene(words.edits.otherOutline, (s) => withRegion(s, id, { outline, cervical, incisal }));
  noteBar(regionKey(id), words.found.outlineOf(next + 1, now.options.length));
}
