/** What is on the desk as plain data, and back. What is read back is checked: it may be damaged, or of another version. */
import type { KeptPhotoReading, OpenPhoto } from '../../engine/desk';
import { desk } from '../../engine/instance';
import type { Guide, LightCheck, PhotoInfo, Scene } from '../../engine/types';
import { EMPTY_DOC, UNTOUCHED, type Doc, type Laid, type PhotoNote, type Proposal } from '../doc';
import { array, guideFromJson, number, record, sceneFromJson } from '../scene_file';
import { bookFrom } from '../stains/book_file';
import { workFrom } from '../stains/kept';
import { USUAL_LIMITS, type StainsDoc } from '../stains/stains_doc';
import { openPhotos } from '../tray/laid';

/** A picture, as it is known without being decoded. */
interface KeptPicture {
  readonly name: string;
  readonly print: string;
  readonly info: PhotoInfo;
  readonly checks: readonly LightCheck[];
  /** Its file is kept, under its print. */
  readonly here: boolean;
  /** What was read of it, should the picture not be here. */
  readonly reading?: KeptPhotoReading;
  /** It was on the desk and could not be kept, or not yet. */
  readonly unkept?: true;
}

interface KeptPhoto extends KeptPicture {
  readonly polarised: KeptPicture | null;
  readonly scene: Scene;
  readonly target?: string;
  readonly proposal: Proposal;
  readonly notes: readonly PhotoNote[];
  /** It was searched, or outlined otherwise. */
  readonly settled: boolean;
}

/** The part of the stains that belongs to a case; the rest is the user's. */
export type CaseStains = Pick<StainsDoc, 'work' | 'typed' | 'limits' | 'lent'>;

export interface KeptDoc {
  readonly form: 1;
  /** In the order in which they were opened. */
  readonly photos: readonly KeptPhoto[];
  /** The place of the one that is looked at; -1 without. */
  readonly shown: number;
  readonly guide: Guide | null;
  readonly stains: CaseStains;
}

export const caseStains = ({ work, typed, limits, lent }: StainsDoc): CaseStains => ({ work, typed, limits, lent });

/** Every picture of a document, partners among them. */
export const picturesOf = (doc: Doc): OpenPhoto[] => [...new Set(openPhotos(doc).flatMap(({ photo, polarised }) => (polarised ? [photo, polarised] : [photo])))];

/** Nothing that a case would be kept for. */
export const isBare = (doc: Doc): boolean => !doc.photo && doc.tray.length === 0 && !doc.stains.work;

export interface Known {
  isHere(photo: OpenPhoto): boolean;
  reading(photo: OpenPhoto): KeptPhotoReading | undefined;
  isSettled(photo: OpenPhoto): boolean;
}

export function toKept(doc: Doc, known: Known): KeptDoc {
  const picture = (photo: OpenPhoto): KeptPicture => {
    const { name, print, info, checks } = photo;
    const here = known.isHere(photo);
    const reading = photo.kept ?? (here ? undefined : known.reading(photo));
    return { name, print, info, checks, here, ...(reading && { reading }), ...(!here && !photo.kept && { unkept: true as const }) };
  };
  const all = openPhotos(doc);
  return {
    form: 1,
    photos: all.map(({ photo, polarised, scene, target, proposal, notes }) => ({
      ...picture(photo), polarised: polarised && picture(polarised), scene, ...(target !== undefined && { target }), proposal, notes, settled: known.isSettled(photo),
    })),
    shown: all.findIndex(({ photo }) => photo === doc.photo),
    guide: doc.guide,
    stains: caseStains(doc.stains),
  };
}

const MAX_PHOTOS = 200;
const MAX_NOTES = 2000;

const text = (value: unknown, part: string): string => {
  if (typeof value !== 'string') throw new Error(part);
  return value;
};

function pictureFrom(value: unknown): KeptPicture {
  const { name, print, info, checks, here, reading, unkept } = record(value, 'picture');
  const { width, height } = record(info, 'info');
  number(width, 'width');
  number(height, 'height');
  array(checks, MAX_NOTES, 'checks').forEach((check) => text(record(check, 'check')['code'], 'code'));
  const kept = reading == null ? undefined : (record(reading, 'reading') as unknown as KeptPhotoReading);
  return { name: text(name, 'name'), print: text(print, 'print'), info: info as PhotoInfo, checks: checks as LightCheck[], here: here === true, ...(kept && { reading: kept }), ...(unkept === true && { unkept }) };
}

function photoFrom(value: unknown): KeptPhoto {
  const { polarised, scene, target, proposal, notes, settled } = record(value, 'photo');
  const pinned = array(notes, MAX_NOTES, 'notes').map((note): PhotoNote => {
    const { id, at, text: said } = record(note, 'note');
    const [x, y] = array(at, 2, 'at').map((v) => number(v, 'at'));
    return { id: text(id, 'id'), at: [x ?? 0, y ?? 0], text: text(said, 'text') };
  });
  return {
    ...pictureFrom(value), polarised: polarised == null ? null : pictureFrom(polarised), scene: sceneFromJson(JSON.stringify(scene)),
    ...(typeof target === 'string' && { target }), proposal: record(proposal, 'proposal') as Proposal, notes: pinned, settled: settled === true,
  };
}

/** Throws when it is nothing that was kept here. */
export function keptFrom(value: unknown): KeptDoc {
  const { form, photos, shown, guide, stains } = record(value, 'case');
  if (form !== 1) throw new Error('form');
  const { work, typed, limits, lent } = record(stains, 'stains');
  return {
    form,
    photos: array(photos, MAX_PHOTOS, 'photos').map(photoFrom),
    shown: number(shown, 'shown'),
    guide: guide == null ? null : guideFromJson(JSON.stringify(guide)),
    stains: {
      work: workFrom(work),
      typed: typed == null ? null : (record(typed, 'typed') as unknown as CaseStains['typed']),
      limits: { ...USUAL_LIMITS, ...record(limits, 'limits') },
      lent: lent == null ? null : bookFrom(lent),
    },
  };
}

export interface Restored {
  readonly doc: Doc;
  readonly settled: readonly OpenPhoto[];
  /** Names of photos whose picture should be here and is not. */
  readonly missing: readonly string[];
}

/** Nothing is decoded here. `fileOf` gives what is kept under a print. */
export function fromKept(kept: KeptDoc, mine: StainsDoc, fileOf: (print: string) => Blob | undefined): Restored {
  const settled: OpenPhoto[] = [];
  const missing: string[] = [];
  const adopt = ({ here, reading, unkept, ...known }: KeptPicture): OpenPhoto => {
    const file = here ? fileOf(known.print) : undefined;
    const copy = file ?? null;
    if (unkept || (here && !copy)) missing.push(known.name);
    const stands = copy ? reading : { report: reading?.report, sha256: reading?.sha256, scale: 0 };
    return desk.adopt(copy, { ...known, checks: [...known.checks], ...(stands && { kept: stands }) });
  };
  const laid = kept.photos.map(({ polarised, scene, target, proposal, notes, settled: was, ...picture }): Laid => {
    const photo = adopt(picture);
    if (was) settled.push(photo);
    return { photo, polarised: polarised && adopt(polarised), scene, target, proposal, notes };
  });
  const shown = laid[kept.shown] ?? laid[0];
  return { doc: { ...EMPTY_DOC, ...UNTOUCHED, ...shown, tray: laid.filter((l) => l !== shown), guide: kept.guide, stains: { ...mine, ...kept.stains } }, settled, missing };
}
