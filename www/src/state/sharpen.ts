/**
 * The photo that is looked at is shown by what is there at once. Its finer copy is made strip by strip while
 * nobody waits for anything else.
 */
import { computed, effect } from '@preact/signals';
import type { CallOptions } from '../engine/client';
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import type { Preview } from '../engine/types';
import { doc } from './desk';
import { MAX_PREVIEW_PX, previews } from './previews';

/** Nothing was asked for so long: the user looks. */
const QUIET_MS = 400;

/** How wide the preview of a photo is: whole blocks, as the engine makes them. */
function fullWidth({ info: { width, height }, kept }: OpenPhoto): number {
  if (kept && kept.scale !== 1) return 0;
  return Math.floor(width / Math.max(1, Math.ceil(Math.sqrt((width * height) / MAX_PREVIEW_PX))));
}

const isSharp = (photo: OpenPhoto): boolean => (previews.of(photo)?.width ?? 0) >= fullWidth(photo);

/** One under the other. */
function joined(strips: readonly Preview[]): Preview {
  const rgba = new Uint8Array(strips.reduce((sum, s) => sum + s.rgba.length, 0));
  let at = 0;
  for (const strip of strips) {
    rgba.set(strip.rgba, at);
    at += strip.rgba.length;
  }
  return { width: strips[0]?.width ?? 0, height: strips.reduce((sum, s) => sum + s.height, 0), rgba };
}

/** The finer copy, now; between two strips `pause` may wait, or say that it is not wanted any more. */
export async function sharpen(photo: OpenPhoto, options: CallOptions = {}, pause: () => Promise<boolean> = async () => true): Promise<void> {
  if (!previews.has(photo)) await previews.load(photo, options);
  if (isSharp(photo)) return;
  const strips: Preview[] = [];
  while (await pause()) {
    const strip = await desk.previewStrip(photo, MAX_PREVIEW_PX, strips.length, options);
    if (!strip) return previews.put(photo, joined(strips));
    strips.push(strip);
  }
}

/** Makes the finer copies of the photos that are looked at. */
export function startSharpening(): () => void {
  const stops = (['photo', 'polarised'] as const).map((which) => {
    const shown = computed(() => doc.value[which]);
    const quiet = async (photo: OpenPhoto) => {
      while (shown.peek() === photo && desk.front.quietMs < QUIET_MS) await new Promise((go) => setTimeout(go, QUIET_MS / 2));
      return shown.peek() === photo;
    };
    const finer = async (photo: OpenPhoto) => {
      if ((await quiet(photo)) && previews.has(photo)) await sharpen(photo, { by: 'front' }, () => quiet(photo));
    };
    return effect(() => {
      const photo = shown.value;
      // Without it the stage shows what is there.
      if (photo) void finer(photo).catch(() => {});
    });
  });
  return () => stops.forEach((stop) => stop());
}
