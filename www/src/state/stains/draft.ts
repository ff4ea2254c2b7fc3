/** A swatch while it is entered: text fields, and whether it makes a swatch. Pure. */
import type { Lab, Swatch, SwatchBook } from '../../engine/types';

export type LabText = readonly [string, string, string];

export interface Draft {
  /** The swatch that is changed, as it stands in the book (see `keyOf`); `null` for a new one. */
  readonly was: string | null;
  readonly stain: string;
  readonly coats: number;
  readonly base: LabText;
  readonly after: LabText;
  /** Where base and result were read, in words. */
  readonly baseFrom: string;
  readonly afterFrom: string;
  /** ± on each reading, ΔE00; empty when it is not known. */
  readonly doubt: string;
  readonly note: string;
  /** Kept from the swatch that is changed. */
  readonly kept?: Pick<Swatch, 'mix' | 'unfired'>;
}

const BLANK: LabText = ['', '', ''];

export const EMPTY_DRAFT: Draft = { was: null, stain: '', coats: 1, base: BLANK, after: BLANK, baseFrom: '', afterFrom: '', doubt: '', note: '' };

/** What a colour of a ceramic can be typed as, with much room; the engine judges the rest. */
export const LAB_RANGES = [
  { name: 'L*', min: 5, max: 100 },
  { name: 'a*', min: -60, max: 60 },
  { name: 'b*', min: -60, max: 80 },
] as const;
export const COATS = { min: 0.25, max: 12, step: 0.25 } as const;
export const MAX_DOUBT = 20;

export const numberOf = (text: string): number => (text.trim() === '' ? NaN : Number(text.trim().replace(',', '.').replace('−', '-')));
export const typedLab = (lab: Lab): LabText => lab.map((v) => String(Math.round(v * 100) / 100)) as unknown as LabText;
export const isBlank = (text: LabText): boolean => text.every((t) => t.trim() === '');

/** A colour that can be meant, or `null`. */
export function labOf(text: LabText): Lab | null {
  const lab = text.map(numberOf);
  return lab.every((v, i) => v >= LAB_RANGES[i]!.min && v <= LAB_RANGES[i]!.max) ? (lab as Lab) : null;
}

export type DraftFault = 'stain' | 'coats' | 'base' | 'after' | 'doubt';

export function faultsOf({ stain, coats, base, after, doubt, kept }: Draft): DraftFault[] {
  const faults: [DraftFault, boolean][] = [
    ['stain', stain.trim() === '' && !kept?.mix],
    ['coats', !(coats >= COATS.min && coats <= COATS.max)],
    ['base', !labOf(base)],
    ['after', !labOf(after)],
    ['doubt', doubt.trim() !== '' && !(numberOf(doubt) >= 0 && numberOf(doubt) <= MAX_DOUBT)],
  ];
  return faults.filter(([, wrong]) => wrong).map(([code]) => code);
}

/** Of a draft without faults. */
export function swatchOf({ stain, coats, base, after, doubt, note, baseFrom, afterFrom, kept }: Draft, from: (base: string, after: string) => string): Swatch {
  const said = note.trim() || (baseFrom || afterFrom ? from(baseFrom, afterFrom) : '');
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
