/** A swatch while it is entered: text fields, and whether it makes a swatch. Pure. */
import type { Lab, Swatch, SwatchBook } from '../../engine/types';
import { inField, numberOf } from '../typed_number';
import { MAX_NAME } from './book';

export type LabText = readonly [string, string, string];

/** An outline of a photo that a colour was read from. */
export interface Spot {
  /** The print of its bytes. */
  readonly photo: string;
  readonly region: string;
  /** It is the demo's photo. */
  readonly demo: boolean;
}

export interface Draft {
  /** The swatch that is changed, as it stands in the book (see `keyOf`); `null` for a new one. */
  readonly was: string | null;
  readonly stain: string;
  readonly coats: number;
  /** What was typed as coats and cannot be meant. */
  readonly wrongCoats?: string;
  readonly base: LabText;
  readonly after: LabText;
  /** Where base and result were read, in words. */
  readonly baseFrom: string;
  readonly afterFrom: string;
  readonly baseAt?: Spot | undefined;
  readonly afterAt?: Spot | undefined;
  /** ± on each reading, ΔE00; empty when it is not known. */
  readonly doubt: string;
  readonly note: string;
  /** Kept from the swatch that is changed. */
  readonly kept?: Pick<Swatch, 'mix' | 'unfired'>;
}

const BLANK: LabText = ['', '', ''];

export const EMPTY_DRAFT: Draft = { was: null, stain: '', coats: 1, base: BLANK, after: BLANK, baseFrom: '', afterFrom: '', doubt: '', note: '' };

/** What the engine takes for the colour of a ceramic. */
export const LAB_RANGES = [
  { name: 'L*', min: 35, max: 97 },
  { name: 'a*', min: -12, max: 20 },
  { name: 'b*', min: -10, max: 45 },
] as const;
export const COATS = { min: 0.25, max: 12, step: 0.25 } as const;
export const MAX_DOUBT = 20;

export const typedLab = (lab: Lab): LabText => lab.map(inField) as unknown as LabText;
export const isBlank = (text: LabText): boolean => text.every((t) => t.trim() === '');

const within = (text: string, axis: number): boolean => numberOf(text) >= LAB_RANGES[axis]!.min && numberOf(text) <= LAB_RANGES[axis]!.max;

/** Which of the three cannot be meant. An empty one is wrong where a colour is asked for. */
export const wrongAxes = (text: LabText, asked: boolean): boolean[] => text.map((t, axis) => (t.trim() === '' ? asked : !within(t, axis)));

/** A colour that can be meant, or `null`. */
export const labOf = (text: LabText): Lab | null => (text.every(within) ? (text.map(numberOf) as Lab) : null);

/** One outline of one photo is not before and after firing. */
const sameSpot = (a?: Spot, b?: Spot): boolean => !!a && !!b && a.region === b.region && a.photo === b.photo;

export type DraftFault = 'stain' | 'long' | 'coats' | 'base' | 'after' | 'same' | 'doubt';

export function faultsOf({ stain, coats, wrongCoats, base, after, baseAt, afterAt, doubt, kept }: Draft): DraftFault[] {
  const faults: [DraftFault, boolean][] = [
    ['stain', stain.trim() === '' && !kept?.mix],
    ['long', stain.trim().length > MAX_NAME],
    ['coats', !!wrongCoats || !(coats >= COATS.min && coats <= COATS.max)],
    ['base', !labOf(base)],
    ['after', !labOf(after)],
    ['same', sameSpot(baseAt, afterAt)],
    ['doubt', doubt.trim() !== '' && !(numberOf(doubt) >= 0 && numberOf(doubt) <= MAX_DOUBT)],
  ];
  return faults.filter(([, wrong]) => wrong).map(([code]) => code);
}

/** Of a draft without faults. */
export function swatchOf({ stain, coats, base, after, doubt, note, baseFrom, afterFrom, baseAt, afterAt, kept }: Draft, say: { readFrom(base: string, after: string): string; demoNote: string }): Swatch {
  const own = note.trim() || (baseFrom || afterFrom ? say.readFrom(baseFrom, afterFrom) : '');
  const said = (baseAt?.demo || afterAt?.demo) && !own.includes(say.demoNote) ? [say.demoNote, own].filter(Boolean).join(': ') : own;
  return {
    ...(kept?.mix ? { mix: kept.mix } : { stain: stain.trim() }),
    coats,
    base: labOf(base)!,
    after: labOf(after)!,
    ...(kept?.unfired && { unfired: kept.unfired }),
    ...(doubt.trim() !== '' && { doubt: numberOf(doubt) }),
    ...(said && { note: said }),
  };
}

/** By what it says: places shift when others come and go. */
export const keyOf = (swatch: Swatch): string => JSON.stringify(swatch);

export function draftOf({ swatches }: SwatchBook, at: number): Draft | null {
  const swatch = swatches[at];
  if (!swatch) return null;
  const { stain = '', coats, base, after, doubt, note = '', mix, unfired } = swatch;
  return {
    was: keyOf(swatch), stain, coats, base: typedLab(base), after: typedLab(after), baseFrom: '', afterFrom: '', doubt: doubt === undefined ? '' : String(doubt), note,
    kept: { ...(mix && { mix }), ...(unfired && { unfired }) },
  };
}
