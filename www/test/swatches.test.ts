import { describe, expect, it } from 'vitest';
import type { Swatch, SwatchBook } from '../src/engine/types';
import { checksOfStain, checksOn, demoSwatches, joined, mixSwatches, nameIn, otherChecks, stainNames, swatchesOf, tooMany, usableStains, withInfo, withName, withoutStain, withoutSwatch, withSwatch } from '../src/state/stains/book';
import { bookFromJson, bookToJson } from '../src/state/stains/book_file';
import { draftOf, EMPTY_DRAFT, faultsOf, labOf, swatchOf, wrongAxes, type Draft } from '../src/state/stains/draft';
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

  it('takes names that differ only in case or spaces for one', () => {
    expect([nameIn(BOOK, ' Umbra '), nameIn(BOOK, 'RUST'), nameIn(BOOK, ' new  one ')]).toEqual(['umbra', 'rust', 'new  one']);
    expect(withName(BOOK, 'umbra', 'Rust ')).toBe(BOOK);
    expect(stainNames(withName(BOOK, 'umbra', 'Umbra'))).toContain('Umbra');
    const { book, added, renamed } = joined(BOOK, { demo: false, stains: [{ name: 'Clear', glaze: true, resting: false }], swatches: [swatch('UMBRA', 2), swatch('sand', 1), swatch('Sand', 2), { ...BOOK.swatches[3]!, mix: { Umbra: 0.5, 'umbra ': 0.5 } }] });
    expect([added, renamed]).toEqual([4, ['Clear', 'UMBRA', 'Sand', 'Umbra', 'umbra ']]);
    expect(stainNames(book)).toEqual(['umbra', 'clear', 'rust', 'sand']);
    expect(book.swatches.at(-1)!.mix).toEqual({ umbra: 1 });
  });

  it('is never larger than the engine takes', () => {
    const many = (n: number) => ({ ...BOOK, stains: [], swatches: Array.from({ length: n }, (_, i) => swatch(`s${i % 61}`, 1)) });
    expect([many(60), many(61), { ...BOOK, swatches: Array(1000).fill(swatch('a', 1)) }, { ...BOOK, swatches: Array(1001).fill(swatch('a', 1)) }].map(tooMany)).toEqual([null, 'manyStains', null, 'manySwatches']);
    expect(words.errors.fileParts).toMatchObject({ manyStains: expect.stringContaining('60'), manySwatches: expect.stringContaining('1000') });
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
    ['stain', { swatches: [{ ...swatch('x'.repeat(81), 1) }] }],
    ['coats', { swatches: [{ ...swatch('a', 1), coats: 0 }] }],
    ['coats', { swatches: [{ ...swatch('a', 1), coats: 13 }] }],
    ['coats', { swatches: [{ ...swatch('a', 1), coats: 'two' }] }],
    ['lab', { swatches: [{ ...swatch('a', 1), base: [70, 1] }] }],
    ['lab', { swatches: [{ ...swatch('a', 1), after: [700, 1, 2] }] }],
    ['mix', { swatches: [{ coats: 1, base: [1, 1, 1], after: [1, 1, 1], mix: {} }] }],
    ['swatches', { swatches: Array(20_001).fill(swatch('a', 1)) }],
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
  const SAY = { readFrom: () => '', demoNote: 'invented' };
  const whole: Draft = { ...EMPTY_DRAFT, stain: ' umbra ', coats: 1.5, base: ['78,5', '1', '16'], after: ['76', '−1', '18'], doubt: '0.8' };

  it('says what is missing', () => {
    expect(faultsOf(EMPTY_DRAFT)).toEqual(['stain', 'base', 'after']);
    expect(faultsOf({ ...whole, coats: 0, doubt: 'some', after: ['', '', ''] })).toEqual(['coats', 'after', 'doubt']);
    expect(faultsOf(whole)).toEqual([]);
    expect(labOf(['101', '0', '0'])).toBeNull();
    expect(labOf(['50', '', '0'])).toBeNull();
  });

  it('names what cannot be meant by its axis, and never one outline as before and after', () => {
    expect(wrongAxes(['98', '−13', ''], false)).toEqual([true, true, false]);
    expect(wrongAxes(['97', '-12', ''], true)).toEqual([false, false, true]);
    expect([labOf(['35', '20', '45']), labOf(['34.9', '0', '0']), labOf(['70', '0', '46'])]).toEqual([[35, 20, 45], null, null]);
    expect(faultsOf({ ...whole, wrongCoats: '13' })).toEqual(['coats']);
    expect(faultsOf({ ...whole, stain: 'x'.repeat(81) })).toEqual(['long']);
    const spot = { photo: 'p', region: 'tab-1', demo: false };
    expect(faultsOf({ ...whole, baseAt: spot, afterAt: { ...spot } })).toEqual(['same']);
    expect(faultsOf({ ...whole, baseAt: spot, afterAt: { ...spot, photo: 'q' } })).toEqual([]);
    expect(faultsOf({ ...whole, baseAt: spot, afterAt: { ...spot, region: 'tab-2' } })).toEqual([]);
  });

  it('is marked when a colour is the demo photo’s, whatever its note says', () => {
    const read: Draft = { ...whole, baseAt: { photo: 'p', region: 'a', demo: true }, note: 'mine' };
    const kept = swatchOf(read, words.swatches);
    expect(kept.note).toBe(`${words.swatches.demoNote}: mine`);
    expect(swatchOf({ ...read, note: kept.note! }, words.swatches).note).toBe(kept.note);
    expect([demoSwatches({ ...BOOK, swatches: [kept, swatch('a', 1)] }, words.swatches.demoNote), demoSwatches({ ...BOOK, demo: true, swatches: [kept] }, words.swatches.demoNote)]).toEqual([1, 0]);
  });

  it('becomes a swatch with a comma or a true minus', () => {
    expect(swatchOf(whole, SAY)).toEqual({ stain: 'umbra', coats: 1.5, base: [78.5, 1, 16], after: [76, -1, 18], doubt: 0.8 });
    expect(swatchOf({ ...whole, doubt: '', baseFrom: 'tab 3', afterFrom: 'tab 3' }, words.swatches).note).toBe('tab 3');
    expect(swatchOf({ ...whole, baseFrom: 'a', afterFrom: 'b', note: 'mine' }, words.swatches).note).toBe('mine');
  });

  it('comes out of the book and goes back unchanged', () => {
    BOOK.swatches.forEach((s, at) => expect(swatchOf(draftOf(BOOK, at)!, SAY)).toEqual(s));
    expect(draftOf(BOOK, 9)).toBeNull();
  });
});
