import { describe, expect, it } from 'vitest';
import type { Swatch, SwatchBook } from '../src/engine/types';
import { checksOfStain, checksOn, joined, mixSwatches, otherChecks, stainNames, swatchesOf, usableStains, withInfo, withName, withoutStain, withoutSwatch, withSwatch } from '../src/state/stains/book';
import { bookFromJson, bookToJson } from '../src/state/stains/book_file';
import { draftOf, EMPTY_DRAFT, faultsOf, labOf, swatchOf, type Draft } from '../src/state/stains/draft';
import { FileError } from '../src/state/scene_file';
import { words } from '../src/words';
import { fakeFit } from './fake_stains';

const swatch = (stain: string, coats: number): Swatch => ({ stain, coats, base: [78, 1, 16], after: [78 - coats, 2, 17 + coats] });

const BOOK: SwatchBook = {
  name: 'Bench 2',
  demo: false,
  stains: [{ name: 'umbra', glaze: false, resting: false }, { name: 'clear', glaze: true, resting: false }],
  swatches: [swatch('umbra', 1), swatch('rust', 2), swatch('clear', 1), { mix: { umbra: 0.6, rust: 0.4 }, coats: 1.5, base: [78, 1, 16], after: [76, 2, 18] }],
};

describe('a book of swatches', () => {
  it('knows stains from their description and from swatches alone', () => {
    expect(stainNames(BOOK)).toEqual(['umbra', 'clear', 'rust']);
    expect(swatchesOf(BOOK, 'rust').map((s) => s.at)).toEqual([1]);
    expect(mixSwatches(BOOK).map((s) => s.at)).toEqual([3]);
  });

  it('plans with what has swatches, is no glaze and does not rest', () => {
    expect(usableStains(BOOK)).toEqual(['umbra', 'rust']);
    const resting = withInfo(BOOK, 'rust', { resting: true });
    expect(usableStains(resting)).toEqual(['umbra']);
    expect(resting.stains.at(-1)).toEqual({ name: 'rust', glaze: false, resting: true });
    expect(usableStains(withInfo(BOOK, 'sand', {}))).not.toContain('sand');
  });

  it('renames everywhere, in mixes too, and never onto another name', () => {
    const next = withName(BOOK, 'umbra', 'earth');
    expect(stainNames(next)).toEqual(['earth', 'clear', 'rust']);
    expect(next.swatches[3]!.mix).toEqual({ earth: 0.6, rust: 0.4 });
    expect(withName(BOOK, 'umbra', 'rust')).toBe(BOOK);
    expect(withName(BOOK, 'umbra', '')).toBe(BOOK);
  });

  it('loses a stain with all that speaks of it, or one swatch', () => {
    expect(withoutStain(BOOK, 'rust').swatches).toEqual([BOOK.swatches[0], BOOK.swatches[2]]);
    expect(withoutSwatch(BOOK, 0).swatches).toEqual(BOOK.swatches.slice(1));
    expect(withSwatch(BOOK, swatch('new', 1), 1).swatches[1]!.stain).toBe('new');
    expect(withSwatch(BOOK, swatch('new', 1), -1).swatches).toHaveLength(5);
  });

  it('takes in another one without doubling', () => {
    const { book, added } = joined(BOOK, { name: 'x', demo: false, stains: [{ name: 'umbra', glaze: true, resting: false }, { name: 'sand', glaze: false, resting: false }], swatches: [swatch('umbra', 1), swatch('umbra', 3)] });
    expect([added, book.swatches.length, book.name]).toEqual([1, 5, 'Bench 2']);
    // What is known already is not overruled.
    expect(book.stains.map((s) => [s.name, s.glaze])).toEqual([['umbra', false], ['clear', true], ['sand', false]]);
  });

  it('has every finding in one place', () => {
    const { checks } = fakeFit({ ...BOOK, stains: [...BOOK.stains, { name: 'sand', glaze: false, resting: false }], swatches: [{ ...BOOK.swatches[0]!, base: [30, 1, 16] }, ...BOOK.swatches.slice(1)] });
    expect(checksOn(checks, 0).map((c) => c.code)).toEqual(['base-unlike']);
    expect(checksOfStain(checks, 'sand').map((c) => c.code)).toEqual(['no-swatch']);
    const shown = [...BOOK.swatches.flatMap((_, i) => checksOn(checks, i)), ...['umbra', 'clear', 'rust', 'sand'].flatMap((n) => checksOfStain(checks, n)), ...otherChecks(checks)];
    expect(shown).toHaveLength(checks.length);
  });
});

describe('a file of swatches', () => {
  it('comes back as it was', () => {
    expect(bookFromJson(bookToJson(BOOK))).toEqual(BOOK);
    expect(bookFromJson('{"swatches":[]}')).toEqual({ demo: false, stains: [], swatches: [] });
  });

  const broken: [string, unknown][] = [
    ['json', null],
    ['swatches', { swatches: 7 }],
    ['swatches', { scene: 1 }],
    ['stains', { stains: {}, swatches: [] }],
    ['stain', { stains: [{ name: '' }], swatches: [] }],
    ['stain', { swatches: [{ ...swatch('x'.repeat(61), 1) }] }],
    ['coats', { swatches: [{ ...swatch('a', 1), coats: 0 }] }],
    ['coats', { swatches: [{ ...swatch('a', 1), coats: 13 }] }],
    ['coats', { swatches: [{ ...swatch('a', 1), coats: 'two' }] }],
    ['lab', { swatches: [{ ...swatch('a', 1), base: [70, 1] }] }],
    ['lab', { swatches: [{ ...swatch('a', 1), after: [700, 1, 2] }] }],
    ['mix', { swatches: [{ coats: 1, base: [1, 1, 1], after: [1, 1, 1], mix: {} }] }],
    ['swatches', { swatches: Array(2001).fill(swatch('a', 1)) }],
  ];
  it.each(broken)('is refused with words for %s', (part, value) => {
    const text = value === null ? '{' : JSON.stringify(value);
    expect(() => bookFromJson(text)).toThrow(FileError);
    try {
      bookFromJson(text);
    } catch (error) {
      expect((error as Error).message).toBe(part);
      expect(words.errors.fileParts).toHaveProperty(part);
    }
  });
});

describe('a swatch that is entered', () => {
  const whole: Draft = { ...EMPTY_DRAFT, stain: ' umbra ', coats: 1.5, base: ['78,5', '1', '16'], after: ['76', '−1', '18'], doubt: '0.8' };

  it('says what is missing', () => {
    expect(faultsOf(EMPTY_DRAFT)).toEqual(['stain', 'base', 'after']);
    expect(faultsOf({ ...whole, coats: 0, doubt: 'some', after: ['', '', ''] })).toEqual(['coats', 'after', 'doubt']);
    expect(faultsOf(whole)).toEqual([]);
    expect(labOf(['101', '0', '0'])).toBeNull();
    expect(labOf(['50', '', '0'])).toBeNull();
  });

  it('becomes a swatch with a comma or a true minus', () => {
    expect(swatchOf(whole, () => '')).toEqual({ stain: 'umbra', coats: 1.5, base: [78.5, 1, 16], after: [76, -1, 18], doubt: 0.8 });
    expect(swatchOf({ ...whole, doubt: '', baseFrom: 'tab 3', afterFrom: 'tab 3' }, words.swatches.readFrom).note).toBe('tab 3');
    expect(swatchOf({ ...whole, baseFrom: 'a', afterFrom: 'b', note: 'mine' }, words.swatches.readFrom).note).toBe('mine');
  });

  it('comes out of the book and goes back unchanged', () => {
    BOOK.swatches.forEach((s, at) => expect(swatchOf(draftOf(BOOK, at)!, () => '')).toEqual(s));
    expect(draftOf(BOOK, 9)).toBeNull();
  });
});
