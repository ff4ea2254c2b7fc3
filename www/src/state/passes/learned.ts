/** The swatches that a pass puts into a book, and takes out again. Pure. */
import type { Swatch, SwatchBook } from '../../engine/types';

/** The same swatch, whatever became of the order of its fields. */
const asText = ({ stain = '', mix = {}, coats, base, after, note = '' }: Swatch): string =>
  JSON.stringify([stain, Object.entries(mix).sort(([a], [b]) => (a < b ? -1 : 1)), coats, base, after, note]);

export const withSwatches = (book: SwatchBook, more: readonly Swatch[]): SwatchBook => ({ ...book, swatches: [...book.swatches, ...more] });

export function withoutSwatches(book: SwatchBook, gone: readonly Swatch[]): SwatchBook {
  const texts = new Set(gone.map(asText));
  return { ...book, swatches: book.swatches.filter((s) => !texts.has(asText(s))) };
}

export function holds(book: SwatchBook, some: readonly Swatch[]): boolean {
  const known = new Set(book.swatches.map(asText));
  return some.length > 0 && some.every((s) => known.has(asText(s)));
}
