/** Files that the page looks at itself, each with one part that is wrong: entry of `words/errors.ts`, name, content, words. */
const SQUARE = [[9, 9], [90, 9], [90, 90]];
const region = (also: object) => ({ regions: [{ id: 'a', kind: 'tooth', outline: SQUARE, ...also }] });
const swatch = (also: object) => ({ swatches: [{ stain: 'umber', coats: 1, base: [75, 1, 16], after: [72, 2, 18], ...also }] });
const missing = (part: string) => `The part “${part}” is missing or not as it should be.`;
const GUIDE = 'is not a shade guide that can be used. The guide in use stays.';
const SCENE = 'is not a scene that can be used. Nothing was changed.';
const SAVED = 'Choose a file that was saved here.';
const MARKED = 'Choose a scene that was saved here, or mark the photo again.';
const BOOK = 'is not a book of swatches that can be used. Your stains are as they were.';
const PART = 'Choose a file of swatches that was saved here, or a part of it.';

const many = (n: number, make: (i: number) => object) => Array.from({ length: n }, (_, i) => make(i));

export const PAGE_FILES: readonly (readonly [entry: string, name: string, content: unknown, says: readonly string[]])[] = [
  ['guide', 'x.guide.json', [], [GUIDE, missing('guide'), SAVED]],
  ['region', 'x.json', { regions: [5] }, [SCENE, missing('region'), MARKED]],
  ['kind', 'x.json', region({ kind: 'bridge' }), [SCENE, 'A region is neither tooth, restoration nor tab.']],
  ['point', 'x.json', region({ cervical: ['left', 3] }), [SCENE, 'A point is not two numbers.']],
  ['transform', 'x.json', { ...region({}), pair_transform: [[1, 0, 0]] }, [SCENE, missing('pair_transform')]],
  ['steps', 'x.json', { card: { steps: [5] }, regions: [] }, [SCENE, missing('steps')]],
  ['reflectance', 'x.json', { card: { outline: SQUARE, reflectance: 'grey' }, regions: [] }, [SCENE, 'The reflectance is not a number.']],
  ['lab', 'x.json', { card: { outline: SQUARE, lab: [50, 0] }, regions: [] }, [SCENE, 'A colour is not three numbers.']],
  ['swatch', 'x.swatches.json', { swatches: [5] }, [BOOK, 'A swatch is not as it should be.', PART]],
  ['stains', 'x.swatches.json', { stains: 5, swatches: [] }, [BOOK, missing('stains')]],
  ['stain', 'x.swatches.json', swatch({ stain: 'x'.repeat(81) }), [BOOK, 'A stain has no name, or one longer than 80 letters.']],
  ['coats', 'x.swatches.json', swatch({ coats: 13 }), [BOOK, 'The coats of a swatch are not a number above 0, up to 12.']],
  ['mix', 'x.swatches.json', swatch({ mix: {} }), [BOOK, missing('mix')]],
  ['manyStains', 'x.swatches.json', { swatches: many(61, (i) => ({ ...swatch({}).swatches[0], stain: `s${i}` })) }, [BOOK, 'Together with yours there would be more than 60 stains; no more can be worked with.']],
  ['manySwatches', 'x.swatches.json', { swatches: many(1001, (i) => ({ ...swatch({}).swatches[0], after: [72 - i / 1000, 2, 18] })) }, [BOOK, 'Together with yours there would be more than 1000 swatches; no more can be worked with.']],
  ['work', 'x.work.json', {}, ['It is not a work that was saved here, or a part of it is missing.']],
];
