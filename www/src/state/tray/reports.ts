/** Readings of the tray's photos, and which of them were searched. The work is done by `behind`. */
import { computed, effect, signal, untracked, type ReadonlySignal } from '@preact/signals';
import type { OpenPhoto } from '../../engine/desk';
import type { Guide, Report } from '../../engine/types';
import { doc } from '../desk';
import type { Laid } from '../doc';
import { reading } from '../reading';
import { isEmpty, openPhotos } from './laid';

interface Known {
  of: Laid;
  guide: Guide | null;
  /** Or why there is none. */
  result: Report | string;
}

/** The newest reading of each photo. */
const known = signal<ReadonlyMap<OpenPhoto, Known>>(new Map());

/** Searched, or outlined otherwise: should nothing be outlined there, that was so wanted. */
const settled = new WeakSet<OpenPhoto>();
export const wasSettled = (photo: OpenPhoto): boolean => settled.has(photo);
export const settle = (photo: OpenPhoto): void => void settled.add(photo);

export function resultOf(laid: Laid): Report | string | undefined {
  const k = known.value.get(laid.photo);
  const alike = k && k.guide === doc.value.guide && (['polarised', 'scene', 'target'] as const).every((key) => k.of[key] === laid[key]);
  return alike ? k.result : undefined;
}

/** Readings of the tray as it stands, by the photo's handle. */
export const trayReports: ReadonlySignal<ReadonlyMap<number, { laid: Laid; report: Report }>> = computed(
  () => new Map(doc.value.tray.flatMap((laid) => {
    const report = resultOf(laid);
    return report && typeof report !== 'string' ? [[laid.photo.handle, { laid, report }] as const] : [];
  })),
);

/** Why laid photos could not be read. */
export const trayProblems: ReadonlySignal<ReadonlyMap<number, string>> = computed(
  () => new Map(doc.value.tray.flatMap((laid) => {
    const why = resultOf(laid);
    return typeof why === 'string' ? [[laid.photo.handle, why] as const] : [];
  })),
);

export function learn(of: Laid, guide: Guide | null, result: Report | string): void {
  const open = new Set(openPhotos(doc.peek()).map((l) => l.photo));
  known.value = new Map([...known.peek(), [of.photo, { of, guide, result }] as const].filter(([photo]) => open.has(photo)));
}

export function startTray(): () => void {
  const stops = [
    effect(() => {
      for (const { photo, scene } of openPhotos(doc.value)) if (!isEmpty(scene)) settled.add(photo);
    }),
    effect(() => {
      const now = reading.value;
      const { photo } = now?.doc ?? {};
      if (now && photo) untracked(() => learn({ ...now.doc, photo }, now.doc.guide, now.report));
    }),
  ];
  return () => stops.forEach((stop) => stop());
}
