/** Books of swatches changed: a book in, another one out. Pure. */
import type { StainInfo, Swatch, SwatchBook, SwatchCheck } from '../../engine/types';

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

const renamedMix = (mix: Record<string, number>, from: string, to: string) => Object.fromEntries(Object.entries(mix).map(([name, share]) => [name === from ? to : name, share]));

/** Under its new name everywhere; the book as it was when another stain has that name. */
export function withName(book: SwatchBook, from: string, to: string): SwatchBook {
  if (to === '' || stainNames(book).includes(to)) return book;
  return {
    ...book,
    stains: book.stains.map((s) => (s.name === from ? { ...s, name: to } : s)),
    swatches: book.swatches.map((s) => (s.stain === from ? { ...s, stain: to } : s.mix && from in s.mix ? { ...s, mix: renamedMix(s.mix, from, to) } : s)),
  };
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
export function joined(book: SwatchBook, more: SwatchBook): { book: SwatchBook; added: number } {
  const swatches = more.swatches.filter((s) => !book.swatches.some((t) => same(s, t)));
  const stains = more.stains.filter((s) => !book.stains.some((t) => t.name === s.name));
  const name = book.name || more.name;
  return { book: { ...book, ...(name && { name }), stains: [...book.stains, ...stains], swatches: [...book.swatches, ...swatches] }, added: swatches.length };
}

/** What is found about one swatch, about a stain as a whole, or about neither. */
export const checksOn = (checks: readonly SwatchCheck[], at: number): SwatchCheck[] => checks.filter((c) => c.swatch === at);
export const checksOfStain = (checks: readonly SwatchCheck[], name: string): SwatchCheck[] => checks.filter((c) => c.stain === name && c.swatch === undefined);
export const otherChecks = (checks: readonly SwatchCheck[]): SwatchCheck[] => checks.filter((c) => c.stain === undefined && c.swatch === undefined);
