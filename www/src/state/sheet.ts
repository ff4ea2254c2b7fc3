/** The sheet of the current reading, and its straightened pictures. */
import { computed, effect, signal } from '@preact/signals';
import { desk } from '../engine/instance';
import type { OpenPhoto } from '../engine/desk';
import type { Preview, Region, Scene } from '../engine/types';
import { words } from '../words';
import { doc } from './desk';
import { latestOnly } from './latest';
import { reading } from './reading';
import { targetOf } from './roles';
import { retakeOf, sheetModel } from './sheet_model';
import { chosenRestoration, chosenTab } from './ui';

export const sheet = computed(() => {
  const current = reading.value;
  if (!current) return null;
  const { doc, report } = current;
  const picks = { target: targetOf(doc), restoration: chosenRestoration.value, tab: chosenTab.value };
  return sheetModel(report, report.scene, picks, (id) => words.names.region(doc.scene, id));
});

/** What is compared with: as chosen or proposed, else as the sheet has it. */
export const target = computed(() => targetOf(doc.value) ?? sheet.value?.pictures.find((p) => p.role === 'target')?.region.id);

/** Why nothing in this photo can be trusted, when nothing can. A missing card is the next step, not a fault. */
export const photoRetake = computed(() => {
  const found = retakeOf(reading.value?.report.checks ?? []);
  return found && found.code !== 'card-missing' ? found : undefined;
});

/** Nothing on the sheet can be trusted, though the photo as a whole could. */
export const nothingTrusted = computed(() => {
  const checks = reading.value?.report.checks ?? [];
  const shown = sheet.value?.pictures ?? [];
  return shown.length > 0 && shown.every(({ region }) => retakeOf(checks, region.id));
});

export const cardMissing = computed(() => !reading.value?.doc.scene.card);

/** Straightened pictures by region id, each for the outline it was made from. */
export const pictures = signal<ReadonlyMap<string, Preview>>(new Map());

interface Wanted {
  photo: OpenPhoto;
  scene: Scene;
  regions: Region[];
}

/** How long nothing has to change before pictures are made again. */
const REST_MS = 250;

/** About as many rows as a tooth has in a photo; more would show nothing more. */
export const HEIGHT_PX = 520;

const made = new Map<string, { key: string; picture: Preview }>();

const makePictures = latestOnly<Wanted>(async ({ photo, scene, regions }) => {
  for (const region of regions) {
    const key = JSON.stringify([photo.handle, region, scene.card, scene.second_card]);
    if (made.get(region.id)?.key === key) continue;
    try {
      made.set(region.id, { key, picture: await desk.straightened(photo, scene, region.id, HEIGHT_PX) });
    } catch {
      // The reading says what is wrong with this outline.
      made.delete(region.id);
    }
  }
  pictures.value = new Map([...made].map(([id, { picture }]) => [id, picture]));
});

export function startPictures(): () => void {
  return effect(() => {
    const { photo } = reading.value?.doc ?? {};
    const scene = reading.value?.report.scene;
    const regions = sheet.value?.pictures.map((p) => p.region);
    if (!photo || !scene || !regions) {
      made.clear();
      pictures.value = new Map();
      return;
    }
    // Readings come first: while an outline is dragged its picture waits.
    const timer = setTimeout(() => makePictures({ photo, scene, regions }), made.size ? REST_MS : 0);
    return () => clearTimeout(timer);
  });
}
