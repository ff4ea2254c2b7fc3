/** Books of swatches changed: a book in, another one out. Pure. */
import type { StainInfo, Swatch, SwatchBook, SwatchCheck } from '../../engine/types';

/** The engine takes no more. */
export const MAX_STAINS = 60;
export const MAX_SWATCHES = 1000;
export const MAX_NAME = 80;

const plain = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase();

/** The name of the stain that is meant: one that differs only in case or spaces is the one that is there. */
export function nameIn(book: SwatchBook, name: string): string {
  const there = stainNames(book);
  const meant = name.trim();
  return there.includes(meant) ? meant : (there.find((n) => plain(n) === plain(meant)) ?? meant);
}

/** Every stain by name: those that are described first, then those that only swatches speak of. */
export function stainNames({ stains, swatches }: SwatchBook): string[] {
  return [...new Set([...stains.map((s) => s.name), ...swatches.flatMap((s) => (s.stain ? [s.stain] : Object.keys(s.mix ?? {})))])];
}

export const infoOf = ({ stains }: SwatchBook, name: string): StainInfo => stains.find((s) => s.name === name) ?? { name, glaze: false, resting: false };

/** The stains that a plan may use. */
export const usableStains = (book: SwatchBook): string[] =>
  stainNames(book).filter((name) => !infoOf(book, name).resting && !infoOf(book, name).glaze && book.swatches.some((s) => s.stain === name || (s.mix && name in s.mix)));

/** Swatches of one stain alone, each with its place in the book. */
export const swatchesOf = ({ swatches }: SwatchBook, name: string): { swatch: Swatch; at: number }[] =>
  swatches.map((swatch, at) => ({ swatch, at })).filter(({ swatch }) => swatch.stain === name && !swatch.mix);

/** Swatches of mixes: fired passes come back as such. */
export const mixSwatches = ({ swatches }: SwatchBook): { swatch: Swatch; at: number }[] => swatches.map((swatch, at) => ({ swatch, at })).filter(({ swatch }) => swatch.mix);

export function withInfo(book: SwatchBook, name: string, next: Partial<StainInfo>): SwatchBook {
  const info = { ...infoOf(book, name), ...next };
  const known = book.stains.some((s) => s.name === name);
  return { ...book, stains: known ? book.stains.map((s) => (s.name === name ? info : s)) : [...book.stains, info] };
}

/** Shares of what gets one name are one share. */
function mapMix(mix: Record<string, number>, to: (name: string) => string): Record<string, number> {
  const out: Record<string, number> = {};
  for (const [name, share] of Object.entries(mix)) out[to(name)] = (out[to(name)] ?? 0) + share;
  return out;
}

const mapNames = (book: SwatchBook, to: (name: string) => string): SwatchBook => ({
  ...book,
  stains: book.stains.map((s) => (to(s.name) === s.name ? s : { ...s, name: to(s.name) })),
  swatches: book.swatches.map((s) => (s.mix ? { ...s, mix: mapMix(s.mix, to) } : s.stain && to(s.stain) !== s.stain ? { ...s, stain: to(s.stain) } : s)),
});

/** Under its new name everywhere; the book as it was when another stain has that name. */
export function withName(book: SwatchBook, from: string, to: string): SwatchBook {
  if (to === '' || to === from || stainNames(book).some((n) => n !== from && plain(n) === plain(to))) return book;
  return mapNames(book, (n) => (n === from ? to : n));
}

/** Without the stain and its swatches; mixes with it go too, since nothing else explains them. */
export const withoutStain = (book: SwatchBook, name: string): SwatchBook => ({
  ...book,
  stains: book.stains.filter((s) => s.name !== name),
  swatches: book.swatches.filter((s) => s.stain !== name && !(s.mix && name in s.mix)),
});

export const withoutSwatch = (book: SwatchBook, at: number): SwatchBook => ({ ...book, swatches: book.swatches.filter((_, i) => i !== at) });

/** In the place of another one; at the end where there is none. */
export const withSwatch = (book: SwatchBook, swatch: Swatch, at: number): SwatchBook => ({
  ...book,
  swatches: book.swatches[at] === undefined ? [...book.swatches, swatch] : book.swatches.map((s, i) => (i === at ? swatch : s)),
});

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Both books in one; what stands in the first already is not doubled. */
export function joined(book: SwatchBook, found: SwatchBook): { book: SwatchBook; added: number; renamed: string[] } {
  // First those of the file among themselves, then with what is there.
  const known: SwatchBook = { ...book, stains: [...book.stains] };
  const renamed = stainNames(found).filter((name) => {
    const there = nameIn(known, name);
    if (there === name) known.stains.push({ name });
    return there !== name;
  });
  const more = renamed.reduce((next, name) => mapNames(next, (n) => (n === name ? nameIn(known, name) : n)), found);
  const swatches = more.swatches.filter((s) => !book.swatches.some((t) => same(s, t)));
  const stains = more.stains.filter((s, i) => ![...book.stains, ...more.stains.slice(0, i)].some((t) => t.name === s.name));
  const name = book.name || more.name;
  return { book: { ...book, ...(name && { name }), stains: [...book.stains, ...stains], swatches: [...book.swatches, ...swatches] }, added: swatches.length, renamed };
}

/** Swatches that were read from the demo's photo: they carry its note. */
export const demoSwatches = ({ demo, swatches }: SwatchBook, note: string): number => (demo ? 0 : swatches.filter((s) => s.note?.includes(note)).length);

/** What the engine would not take, as a part of a file. */
export const tooMany = (book: SwatchBook): 'manyStains' | 'manySwatches' | null =>
  stainNames(book).length > MAX_STAINS ? 'manyStains' : book.swatches.length > MAX_SWATCHES ? 'manySwatches' : null;

/** What is found about one swatch, about a stain as a whole, or about neither. */
export const checksOn = (checks: readonly SwatchCheck[], at: number): SwatchCheck[] => checks.filter((c) => c.swatch === at);
export const checksOfStain = (checks: readonly SwatchCheck[], name: string): SwatchCheck[] => checks.filter((c) => c.stain === name && c.swatch === undefined);
export const otherChecks = (checks: readonly SwatchCheck[]): SwatchCheck[] => checks.filter((c) => c.stain === undefined && c.swatch === undefined);
