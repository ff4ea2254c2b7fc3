/** Books of swatches as files: plain JSON, checked before anything on the desk changes. */
import type { Lab, StainInfo, Swatch, SwatchBook } from '../../engine/types';
import { array, FileError, labFrom, number, parsed, record } from '../scene_file';
import { MAX_NAME, MAX_STAINS } from './book';

/** Bounds of what is read at all; how many a book may have is asked when it is taken in. */
const MAX_ENTRIES = 20_000;
const MAX_TEXT = 200;

export const bookToJson = (book: SwatchBook): string => `${JSON.stringify(book, null, 1)}\n`;

/** Throws a `FileError` whose message says which part is wrong. */
export const bookFromJson = (text: string): SwatchBook => bookFrom(parsed(text));

export function bookFrom(value: unknown): SwatchBook {
  const { name, demo, stains, swatches } = record(value, 'swatches');
  return {
    ...said('name', name),
    demo: demo === true,
    stains: array(stains ?? [], MAX_ENTRIES, 'stains').map(stainFrom),
    swatches: array(swatches, MAX_ENTRIES, 'swatches').map(swatchFrom),
  };
}

function stainFrom(value: unknown): StainInfo {
  const { name, glaze, note, resting } = record(value, 'stains');
  return { name: nameFrom(name), glaze: glaze === true, ...said('note', note), resting: resting === true };
}

function swatchFrom(value: unknown): Swatch {
  const { stain, mix, coats, base, after, unfired, doubt, note } = record(value, 'swatch');
  const painted = number(coats, 'coats');
  if (!(painted > 0 && painted <= 12)) throw new FileError('coats');
  return {
    ...(mix == null ? { stain: nameFrom(stain) } : { mix: mixFrom(mix) }),
    coats: painted,
    base: colour(base),
    after: colour(after),
    ...(unfired == null ? {} : { unfired: colour(unfired) }),
    ...(doubt == null ? {} : { doubt: number(doubt, 'swatch') }),
    ...said('note', note),
  };
}

function mixFrom(value: unknown): Record<string, number> {
  const entries = Object.entries(record(value, 'mix')).map(([name, share]) => [nameFrom(name), number(share, 'mix')] as const);
  if (entries.length === 0 || entries.length > MAX_STAINS || entries.some(([, share]) => share < 0)) throw new FileError('mix');
  return Object.fromEntries(entries);
}

/** No surface looks like anything outside; whether it looks like a ceramic the engine says. */
function colour(value: unknown): Lab {
  const [l, a, b] = labFrom(value);
  if (l < 0 || l > 110 || Math.max(Math.abs(a), Math.abs(b)) > 150) throw new FileError('lab');
  return [l, a, b];
}

function nameFrom(value: unknown): string {
  const name = typeof value === 'string' ? value.trim() : '';
  if (name === '' || name.length > MAX_NAME) throw new FileError('stain');
  return name;
}

const said = <K extends string>(key: K, value: unknown): { [k in K]?: string } => (typeof value === 'string' && value ? ({ [key]: value.slice(0, MAX_TEXT) } as { [k in K]?: string }) : {});
