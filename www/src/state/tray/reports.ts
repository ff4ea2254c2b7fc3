/**
 * The photos of the tray are searched and read too: one after another, behind whatever the photo
 * that is looked at needs.
 */
import { computed, effect, signal, untracked, type ReadonlySignal } from '@preact/signals';
import type { OpenPhoto } from '../../engine/desk';
import { desk } from '../../engine/instance';
import type { Guide, Report } from '../../engine/types';
import { amend, doc } from '../desk';
import type { Laid } from '../doc';
import { withFound } from '../found';
import { describe } from '../problems';
import { reading } from '../reading';
import { busy } from '../status';
import { opening } from './incoming';
import { isEmpty, openPhotos, withAmended } from './laid';

interface Known {
  of: Laid;
  guide: Guide | null;
  /** Or why there is none. */
  result: Report | string;
}

/** The newest reading of each photo. */
const known = signal<ReadonlyMap<OpenPhoto, Known>>(new Map());

export type Doing = 'find' | 'read';
/** What is being done with which laid photo. */
export const trayWork = signal<{ photo: OpenPhoto; doing: Doing } | null>(null);

/** Searched, or outlined otherwise: should nothing be outlined there, that was so wanted. */
const settled = new WeakSet<OpenPhoto>();
export const wasSettled = (photo: OpenPhoto): boolean => settled.has(photo);
export const settle = (photo: OpenPhoto): void => void settled.add(photo);

function resultOf(laid: Laid): Report | string | undefined {
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

function learn(of: Laid, guide: Guide | null, result: Report | string): void {
  const open = new Set(openPhotos(doc.peek()).map((l) => l.photo));
  known.value = new Map([...known.peek(), [of.photo, { of, guide, result }] as const].filter(([photo]) => open.has(photo)));
}

async function find(laid: Laid): Promise<void> {
  try {
    const { scene, proposal } = withFound(laid.scene, await desk.find(laid.photo));
    amend((d) => withAmended(d, laid, { scene, proposal }));
  } catch {
    // It is read as it is; that says what is missing.
  }
  settled.add(laid.photo);
}

async function read(laid: Laid): Promise<void> {
  const { guide } = doc.peek();
  try {
    learn(laid, guide, await desk.read({ ...laid, guide }));
  } catch (error) {
    learn(laid, guide, describe(error).text);
  }
}

const unsearched = ({ photo, scene }: Laid): boolean => isEmpty(scene) && !settled.has(photo);

async function workOn(laid: Laid): Promise<void> {
  const doing = unsearched(laid) ? 'find' : 'read';
  trayWork.value = { photo: laid.photo, doing };
  try {
    await (doing === 'find' ? find : read)(laid);
  } finally {
    trayWork.value = null;
  }
}

/** The first that is not searched or not read, when nothing else is to be done. */
const next = (): Laid | undefined => (busy.value || opening.value || trayWork.value ? undefined : doc.value.tray.find((laid) => unsearched(laid) || resultOf(laid) === undefined));

export function startTray(): () => void {
  const stops = [
    effect(() => {
      // After those who may be busy in a moment.
      if (next()) queueMicrotask(() => {
        const laid = next();
        if (laid) void workOn(laid);
      });
    }),
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
