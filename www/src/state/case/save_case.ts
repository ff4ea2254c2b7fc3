/** Saving the case as a file. */
import { signal } from '@preact/signals';
import { caseDesk } from '../../engine/case_instance';
import type { KeptAs } from '../../engine/case_types';
import type { CallOptions } from '../../engine/client';
import { MAX_FILE_BYTES, type OpenPhoto } from '../../engine/desk';
import { desk } from '../../engine/instance';
import { EngineError, type Preview, type Report } from '../../engine/types';
import { words } from '../../words';
import { doc } from '../desk';
import { imageData, MAX_PREVIEW_PX } from '../previews';
import { report } from '../problems';
import { say, tell, whileBusy } from '../status';
import { openPhotos } from '../tray/laid';
import { reportOf } from '../tray/report_of';
import { caseOf } from './as_case';
import { current } from './at_hand';
import { rename } from './current';
import { picturesOf } from './kept_doc';
import { lock, LockError } from './locked';

export interface Saving {
  readonly label: string;
  readonly photos: KeptAs;
  readonly passphrase: string;
}

/** Between 0 and 1, while photos are read for it. */
export const savingAt = signal<{ at: number; of: number } | null>(null);

/** It would lose what this version does not understand. */
export const mayNotSave = (): boolean => current.value?.readOnly === true;

export const nothingToSave = (): boolean => openPhotos(doc.value).length === 0 && doc.value.stains.work === null;

async function reports(options: CallOptions): Promise<ReadonlyMap<OpenPhoto, Report>> {
  const found = new Map<OpenPhoto, Report>();
  const all = openPhotos(doc.value);
  const { guide } = doc.value;
  for (const [i, laid] of all.entries()) {
    savingAt.value = { at: i + 1, of: all.length };
    const read = reportOf(laid.photo) ?? (await desk.read({ ...laid, guide }, options).catch(() => undefined));
    options.signal?.throwIfAborted();
    if (read) found.set(laid.photo, read);
  }
  return found;
}

const JPEG_QUALITY = 0.85;

/** sRGB, for the eye. */
async function copyOf(picture: Preview): Promise<Blob> {
  const canvas = new OffscreenCanvas(picture.width, picture.height);
  canvas.getContext('2d')!.putImageData(imageData(picture), 0, 0);
  return canvas.convertToBlob({ type: 'image/jpeg', quality: JPEG_QUALITY });
}

async function fileOf(photo: OpenPhoto, kept: KeptAs, options: CallOptions): Promise<Blob | null> {
  const file = desk.fileOf(photo);
  if (kept !== 'reduced' || !file || (photo.kept && photo.kept.scale < 1)) return file;
  return copyOf(await desk.preview(photo, MAX_PREVIEW_PX, options));
}

export interface Saved {
  readonly file: Blob;
  /** From how many photos something was removed. */
  readonly removed: number;
}

/** The bytes of the file. Gives `null` when cancelled. */
export function makeFile({ label, photos, passphrase }: Saving): Promise<Saved | null> {
  return whileBusy(words.caseFile.saving, async (signal, onPhase) => {
    const options = { signal, onPhase };
    try {
      const now = new Date().toISOString();
      const read = await reports(options);
      const meta = { created: current.value?.created ?? now, label: label.trim() || undefined, changed: now };
      const made = caseOf(doc.value, { meta, photos, reportOf: (photo) => read.get(photo) });
      const files = [];
      for (const kept of made.case.photos) {
        const file = kept.kept === 'absent' && photos !== 'absent' ? null : await fileOf(made.of.get(kept.id)!, kept.kept, options);
        if (file) files.push({ id: kept.id, file });
      }
      const { file, case: written } = await caseDesk.write(made.case, files, options);
      // It is opened by the same page.
      if (file.size > MAX_FILE_BYTES) throw new EngineError('too-large', words.caseFile.wouldBeTooLarge);
      return { file: passphrase ? await lock(file, passphrase) : file, removed: written.photos.filter((p) => p.removed?.length).length };
    } finally {
      savingAt.value = null;
    }
  });
}

/** Hands it to the user by `give`, which tells the name of the file. Gives whether it was saved. */
export async function saveCase(saving: Saving, give: (label: string, file: Blob) => string): Promise<boolean> {
  const t = words.caseFile;
  try {
    const saved = await makeFile(saving);
    if (!saved) return say(words.status.cancelled), false;
    const name = give(saving.label, saved.file);
    const { value: now } = current;
    if (now && saving.label.trim() && saving.label.trim() !== now.label) void rename(now.id, saving.label);
    tell(t.saved(name, saved.removed));
    return true;
  } catch (error) {
    if (error instanceof LockError) report(t.saveFailed, new Error(t.fault.texts.noCipher), t.noCipherAdvice);
    else report(t.saveFailed, error, t.saveAdvice);
    return false;
  }
}

/** About how large the file becomes, in bytes. */
export function roughSize(photos: KeptAs): number {
  const all = picturesOf(doc.value);
  const of = { original: (p: OpenPhoto) => desk.fileOf(p)?.size ?? 0, reduced: (p: OpenPhoto) => Math.min(desk.fileOf(p)?.size ?? 0, 400_000), absent: () => 0 }[photos];
  return 20_000 + all.map(of).reduce((a, b) => a + b, 0);
}
