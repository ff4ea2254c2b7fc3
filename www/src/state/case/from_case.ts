/** What a case file holds, made ready for the desk. Nothing on the desk changes here. */
import type { OpenedCase } from '../../engine/case_desk';
import type { Case, KeptPhoto } from '../../engine/case_types';
import { AbsentError } from '../../engine/absent';
import type { CallOptions } from '../../engine/client';
import type { OpenPhoto } from '../../engine/desk';
import { fingerprint } from '../../engine/fingerprint';
import { desk } from '../../engine/instance';
import type { Report } from '../../engine/types';
import { EMPTY_DOC, UNTOUCHED, type Doc, type Laid } from '../doc';
import { limitsFrom, workFromJson } from '../passes/work_file';
import { describe } from '../problems';
import { sceneFromJson } from '../scene_file';
import { bookFrom } from '../stains/book_file';
import type { StainsDoc } from '../stains/stains_doc';

export interface FromCase {
  readonly doc: Partial<Doc>;
  /** Which open photo is which of the case. */
  readonly of: ReadonlyMap<string, OpenPhoto>;
  /** Photos that could not be opened, and why. */
  readonly unreadable: readonly { name: string; why: string }[];
  /** What else could not be opened, and why. */
  readonly leftOut: readonly LeftOut[];
}

export interface LeftOut {
  readonly part: 'work' | 'swatches' | 'limits';
  readonly why: string;
}

type Options = CallOptions & { tooLarge: string };

/** With the photo that is looked at first: the others are decoded when they are needed. */
export async function fromCase({ case: found, photos }: OpenedCase, stains: StainsDoc, options: Options): Promise<FromCase> {
  const of = new Map<string, OpenPhoto>();
  const unreadable: { name: string; why: string }[] = [];
  const laid = new Map<string, Laid>();
  const plain = found.photos.filter((p) => p.role === 'plain');
  const shownId = plain.find((p) => p.id === found.shown)?.id ?? plain[0]?.id;
  // In the order of the case: handles tell it.
  try {
    for (const kept of plain) {
      try {
        const next = await photoOf(kept, found, photos, kept.id === shownId, options);
        of.set(kept.id, next.photo);
        if (next.polarised && kept.partner) of.set(kept.partner, next.polarised);
        laid.set(kept.id, next);
      } catch (error) {
        if (options.signal?.aborted) throw error;
        unreadable.push({ name: kept.name, why: describe(error).text });
      }
    }
    const shown = laid.get(shownId ?? '') ?? [...laid.values()][0];
    const tray = [...laid.values()].filter((l) => l !== shown);
    const guide = found.guide ? await desk.checkGuide(found.guide) : null;
    const leftOut: LeftOut[] = [];
    return { of, unreadable, leftOut, doc: { ...EMPTY_DOC, ...UNTOUCHED, ...shown, tray, guide, stains: stainsOf(found, stains, leftOut) } };
  } catch (error) {
    of.forEach((photo) => desk.close(photo));
    throw error;
  }
}

async function photoOf(kept: KeptPhoto, found: Case, photos: OpenedCase['photos'], now: boolean, options: Options): Promise<Laid> {
  const partner = found.photos.find((p) => p.id === kept.partner);
  const report = kept.reading?.report;
  const whole = (p: KeptPhoto) => p.kept === 'original' && photos.has(p.id);
  const complete = whole(kept) && (!partner || whole(partner));
  const scene = sceneFromJson(JSON.stringify(kept.scene));
  const photo = complete ? await openNow(kept, photos.get(kept.id)!, report, now, options) : await standIn(kept, photos.get(kept.id), report, options);
  let polarised: OpenPhoto | null = null;
  if (partner) polarised = whole(partner) ? await openNow(partner, photos.get(partner.id)!, undefined, true, options) : partnerOf(partner, photo);
  const { restoration, target, card_steps } = kept.proposal ?? {};
  return {
    photo, polarised, scene, target: kept.target, notes: kept.notes ?? [],
    proposal: { ...(restoration && { restoration }), ...(target && { target }), ...(card_steps && { cardSteps: card_steps }) },
  };
}

/** What the report says of the photo is enough, until something is asked about its picture. */
async function openNow({ name }: KeptPhoto, file: Blob, report: Report | undefined, now: boolean, options: Options): Promise<OpenPhoto> {
  if (now || !report) return desk.open(file, name, options);
  return desk.adopt(file, { name, print: await fingerprint(file), info: report.photo, checks: report.checks });
}

/** A copy for the eye, or nothing: the kept numbers stand. */
async function standIn({ id, name, kept, sha256 }: KeptPhoto, file: Blob | undefined, report: Report | undefined, options: Options): Promise<OpenPhoto> {
  if (!report) throw new AbsentError();
  const copy = file && kept !== 'absent' ? file : null;
  const known = { name, info: report.photo, checks: report.checks };
  if (!copy) return desk.adopt(null, { ...known, print: `${id}-${sha256 ?? name}`, kept: { report, scale: 0, sha256 } });
  if (kept === 'original') return desk.adopt(copy, { ...known, print: await fingerprint(copy), kept: { report, scale: 1, sha256 } });
  // How much smaller it is only its pixels tell.
  const opened = await desk.open(copy, name, options);
  return { ...opened, ...known, kept: { report, scale: opened.info.width / report.photo.width, sha256 } };
}

const partnerOf = ({ id, name, sha256 }: KeptPhoto, { info, checks }: OpenPhoto): OpenPhoto =>
  desk.adopt(null, { name, print: `${id}-${sha256 ?? name}`, info, checks, kept: { report: undefined, scale: 0, sha256 } });

/** The user's own stains stay the user's; those of the case are lent, unless they are the same. Photos and numbers do not hang on what cannot be opened here. */
function stainsOf({ swatches, work, page }: Case, mine: StainsDoc, leftOut: LeftOut[]): StainsDoc {
  const opened = <T, E>(part: LeftOut['part'], value: unknown, open: () => T, otherwise: E): T | E => {
    try {
      return value == null ? otherwise : open();
    } catch (error) {
      leftOut.push({ part, why: describe(error).text });
      return otherwise;
    }
  };
  const book = opened('swatches', swatches, () => bookFrom(swatches), null);
  const same = book && JSON.stringify(book) === JSON.stringify(bookFrom(mine.own));
  return {
    ...mine, lent: same ? null : book, typed: null, work: opened('work', work, () => workFromJson(JSON.stringify(work)), null),
    limits: opened('limits', page?.['limits'], () => limitsFrom(page?.['limits']), mine.limits),
  };
}
