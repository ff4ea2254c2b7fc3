/** The comparison across photos: who is compared, the differences, and the two pictures. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { desk } from '../../engine/instance';
import type { ColourPair, Difference, Preview, Zone } from '../../engine/types';
import { words } from '../../words';
import { doc } from '../desk';
import { latestOnly } from '../latest';
import { describe } from '../problems';
import { reading } from '../reading';
import { HEIGHT_PX } from '../sheet';
import { changeStains } from '../stains/swatches';
import { say } from '../status';
import { lookedAt, openPhotos } from '../tray/laid';
import { trayReports } from '../tray/reports';
import { showMode } from '../ui';
import { pairsOf, picksOf, sideAt, SIDES, typedFrom, type OpenOne, type Picks, type Side, type Sided, type ThirdPair } from './compare_model';

const chosen = signal<Picks>({ restoration: null, target: null });

/** Every open photo with the newest reading of it; outlines are those that were read. */
export const openOnes = computed<OpenOne[]>(() => {
  const now = doc.value;
  const looked = reading.value?.doc.photo === now.photo ? reading.value : null;
  return openPhotos(now).map((laid) => {
    const known = laid.photo === now.photo ? looked && { laid: lookedAt(looked.doc), report: looked.report } : trayReports.value.get(laid.photo.handle);
    const made = known?.laid ?? laid;
    return { photo: laid.photo, made: known ? { ...made, scene: known.report.scene } : made, report: known?.report ?? null };
  });
});

const picks = computed(() => picksOf(openOnes.value, chosen.value));

/** Who is compared now. */
export const sides = computed<Record<Side, Sided | null>>(() => ({
  restoration: sideAt(openOnes.value, picks.value.restoration),
  target: sideAt(openOnes.value, picks.value.target),
}));

export const choose = (side: Side, handle: number, region: string): void => void (chosen.value = { ...picks.value, [side]: { handle, region } });

export const exchange = (): void => void (chosen.value = { restoration: picks.value.target, target: picks.value.restoration });

/** Each third that was read in both. */
export const thirdPairs = computed<ThirdPair[]>(() => {
  const { restoration, target } = sides.value;
  return restoration && target ? pairsOf(restoration, target) : [];
});

const keyOf = (pairs: readonly ThirdPair[]): string => JSON.stringify(pairs);
const found = signal<{ key: string; byZone: ReadonlyMap<Zone, Difference> }>({ key: '', byZone: new Map() });
export const compareProblem = signal<string | null>(null);

/** Of the pairs as they are now; none while they are being compared. */
export const differences = computed<ReadonlyMap<Zone, Difference>>(() => (found.value.key === keyOf(thirdPairs.value) ? found.value.byZone : new Map()));

const compare = latestOnly<ThirdPair[]>(async (pairs) => {
  try {
    const list = await desk.differences(pairs.map((p): ColourPair => p.pair));
    found.value = { key: keyOf(pairs), byZone: new Map(pairs.map(({ zone }, i) => [zone, list[i]!])) };
    compareProblem.value = null;
  } catch (error) {
    compareProblem.value = describe(error).text;
  }
});

/** Straightened pictures of the two, by what they were made from. */
const pictures = signal<ReadonlyMap<string, Preview>>(new Map());
const pictureKey = ({ of: { photo, made }, region }: Sided): string => JSON.stringify([photo.handle, region, made.scene.card, made.scene.second_card]);
export const pictureOf = (side: Sided): Preview | undefined => pictures.value.get(pictureKey(side));

const makePictures = latestOnly<readonly Sided[]>(async (wanted) => {
  const made = new Map<string, Preview>();
  for (const side of wanted) {
    const { photo, made: { scene } } = side.of;
    try {
      made.set(pictureKey(side), pictureOf(side) ?? (await desk.straightened(photo, scene, side.region.id, HEIGHT_PX)));
    } catch {
      // What is wrong with the outline or its card stands in the place of the numbers.
    }
  }
  pictures.value = made;
});

/** While the comparison is on show. */
export function startCompare(): () => void {
  const stops = [
    effect(() => {
      const pairs = thirdPairs.value;
      if (pairs.length > 0 && found.peek().key !== keyOf(pairs)) untracked(() => compare(pairs));
    }),
    effect(() => {
      const both = SIDES.map((side) => sides.value[side]).filter((s) => s !== null);
      untracked(() => makePictures(both));
    }),
  ];
  return () => stops.forEach((stop) => stop());
}

/** The colours go where typed ones go; what they were typed over comes back by undo. */
export function planFromComparison(): void {
  const pairs = thirdPairs.value;
  if (pairs.length === 0) return;
  changeStains(words.compare.edits.plan, { typed: typedFrom(pairs) });
  showMode('plan');
  say(words.compare.planned);
}
