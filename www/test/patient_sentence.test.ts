import { describe, expect, it } from 'vitest';
import { differenceOf, type Compared, type Difference } from '../src/state/patient/sentence_model';

type Zone = Compared['zone'];
/** A third by its parts; the whole is about their root of squares. */
const third = (zone: Zone, [delta_l, delta_c, delta_h]: [number, number, number], doubt = 0.3, also: Partial<Compared> = {}): Compared => ({
  zone, delta_l, delta_c, delta_h, doubt, delta_e_00: Math.hypot(delta_l, delta_c, delta_h), hue_deg: 88, chroma: 16, ...also,
});
const all = (parts: [number, number, number], doubt?: number, also?: Partial<Compared>) => (['cervical', 'middle', 'incisal'] as const).map((z) => third(z, parts, doubt, also));
const clauses = (d: Difference) => (d.kind === 'differs' ? d.clauses : []);
const only = (d: Difference) => clauses(d).map((c) => [c.amount, ...c.ways, c.where.mostly ? 'mostly' : 'at', ...c.where.thirds].join(' '));

describe('whether a difference can be told', () => {
  it('cannot where the doubt is as large in every third', () => {
    expect(differenceOf(all([2, 0, 0], 2))).toEqual({ kind: 'unsure' });
    expect(differenceOf(all([2, 0, 0], 1.9)).kind).toBe('differs');
    // One third that can be told is enough.
    expect(differenceOf([third('cervical', [2, 0, 0], 3), third('incisal', [2, 0, 0], 1)]).kind).toBe('differs');
    expect(differenceOf([])).toEqual({ kind: 'unsure' });
  });

  it('is alike only when even with the doubt nobody much would see it', () => {
    expect(differenceOf(all([0.4, 0, 0], 0.4))).toEqual({ kind: 'alike' });
    expect(differenceOf(all([0.1, 0, 0], 0.5))).toEqual({ kind: 'alike' });
    expect(differenceOf(all([0.1, 0, 0], 0.9))).toEqual({ kind: 'unsure' });
  });

  it('is hardly there when it is real but small, and could be a little more', () => {
    expect(differenceOf(all([0.7, 0, 0], 0.4))).toEqual({ kind: 'hardly' });
    expect(differenceOf(all([0.81, 0, 0], 0.4)).kind).toBe('differs');
    // A third that could be far off forbids it.
    expect(differenceOf([third('cervical', [0.7, 0, 0], 0.4), third('middle', [1.2, 0, 0], 1.5)])).toEqual({ kind: 'unsure' });
  });
});

describe('how much', () => {
  const amount = (size: number, doubt: number) => clauses(differenceOf(all([size, 0, 0], doubt)))[0]?.amount;

  it('goes by what half see and half would want corrected', () => {
    expect([0.9, 1.8, 1.81, 3.6, 3.61].map((size) => amount(size, 0.3))).toEqual(['little', 'little', 'clearly', 'clearly', 'much']);
  });

  it('is one less where the doubt would allow for two less', () => {
    expect([amount(2, 1.1), amount(2, 1.3)]).toEqual(['clearly', 'little']);
    expect([amount(4, 2.1), amount(4, 2.3)]).toEqual(['much', 'clearly']);
    expect(amount(4, 3.3)).toBe('little');
  });

  it('is that of the third where it is most, of those that are spoken of', () => {
    expect(only(differenceOf([third('cervical', [1, 0, 0]), third('middle', [1.1, 0, 0]), third('incisal', [4, 0, 0])]))).toEqual(['much brighter mostly incisal']);
  });
});

describe('in what way', () => {
  it('has a word for every direction', () => {
    const way = (...parts: [number, number, number]) => clauses(differenceOf(all(parts)))[0]?.ways;
    expect(way(2, 0, 0)).toEqual(['brighter']);
    expect(way(-2, 0, 0)).toEqual(['darker']);
    expect(way(0, 2, 0)).toEqual(['stronger']);
    expect(way(0, -2, 0)).toEqual(['paler']);
    expect(way(0, 0, 2)).toEqual(['yellower']);
    expect(way(0, 0, -2)).toEqual(['redder']);
  });

  it('names a second one from half of the largest on, and never a third', () => {
    expect(only(differenceOf(all([2, -0.9, 0])))).toEqual(['clearly brighter at cervical middle incisal']);
    expect(only(differenceOf(all([2, -1.1, 0])))).toEqual(['clearly brighter paler at cervical middle incisal']);
    expect(only(differenceOf(all([2, -1.6, 1.4])))).toEqual(['clearly brighter paler at cervical middle incisal']);
  });

  it('names none that is within the doubt', () => {
    expect(only(differenceOf(all([2, -1.1, 0], 1.2)))).toEqual(['clearly brighter at cervical middle incisal']);
    // Different for certain, but nobody can say how.
    expect(only(differenceOf(all([1, 1, 1], 1.1)))).toEqual(['little at cervical middle incisal']);
  });

  it('does not speak of yellow and red away from the hues of teeth, or without colour', () => {
    const ways = (also: Partial<Compared>) => clauses(differenceOf(all([0, 0, 2], 0.3, also)))[0]?.ways;
    expect([ways({ hue_deg: 29 }), ways({ hue_deg: 131 }), ways({ chroma: 4.9 })]).toEqual([[], [], []]);
    expect([ways({ hue_deg: 30 }), ways({ hue_deg: 130 }), ways({ chroma: 5 })]).toEqual([['yellower'], ['yellower'], ['yellower']]);
  });
});

describe('where', () => {
  const at = (...l: number[]) => only(differenceOf((['cervical', 'middle', 'incisal'] as const).slice(0, l.length).map((z, i) => third(z, [l[i]!, 0, 0]))))[0];

  it('is all over, mostly in some thirds, or only in some', () => {
    expect(at(2, 2, 2)).toBe('clearly brighter at cervical middle incisal');
    expect(at(2, 2, 3)).toBe('clearly brighter at cervical middle incisal');
    expect(at(1.5, 2, 3.2)).toBe('clearly brighter mostly incisal');
    expect(at(1, 3, 3.2)).toBe('clearly brighter mostly middle incisal');
    expect(at(0.2, 0.5, 3.2)).toBe('clearly brighter at incisal');
    expect(at(3.2, 0, 3.2)).toBe('clearly brighter at cervical incisal');
  });

  it('is never all over when a third could not be read', () => expect(at(2, 1)).toBe('clearly brighter at cervical middle'));

  it('is told of both ways when they are in different places', () => {
    const gumAndEdge = [third('cervical', [0, -1.9, 0]), third('middle', [0.2, -0.2, 0]), third('incisal', [3, 0, 0])];
    expect(only(differenceOf(gumAndEdge))).toEqual(['clearly brighter at incisal', 'clearly paler at cervical']);
    // Small beside the first, it is left out.
    expect(only(differenceOf([gumAndEdge[1]!, gumAndEdge[2]!, third('cervical', [0, -1.4, 0])]))).toEqual(['clearly brighter at incisal']);
    // The second is as much as its own part, not as the whole difference there.
    expect(only(differenceOf([third('cervical', [3, -1.7, 0]), third('incisal', [3, 0, 0])]))).toEqual(['clearly brighter at cervical incisal', 'little paler at cervical']);
  });

  it('is not where a way is small beside another', () => {
    expect(only(differenceOf([third('cervical', [0, -2, 0]), third('incisal', [3, -1, 0])]))).toEqual(['clearly brighter at incisal', 'clearly paler at cervical']);
  });

  it('keeps apart what is mostly there and what is only there', () => {
    expect(only(differenceOf([third('cervical', [1, 0, 0]), third('middle', [1, 0, 0]), third('incisal', [3, -2.5, 0])]))).toEqual(['much brighter mostly incisal', 'clearly paler at incisal']);
  });

  it('is brighter here and darker there', () => {
    expect(only(differenceOf([third('cervical', [-2, 0, 0]), third('incisal', [3, 0, 0])]))).toEqual(['clearly brighter at incisal', 'clearly darker at cervical']);
  });
});

describe('a difference in colour only', () => {
  const colourOnly = (d: Difference) => d.kind === 'differs' && d.colourOnly;
  it('is told when light and dark are alike for certain, everywhere', () => {
    expect(colourOnly(differenceOf(all([0.4, -2, 0])))).toBe(true);
    expect(colourOnly(differenceOf(all([0.6, -2, 0])))).toBe(false);
    expect(colourOnly(differenceOf(all([0.4, -2, 0], 0.5)))).toBe(false);
    expect(colourOnly(differenceOf([third('middle', [0, -2, 0]), third('incisal', [-0.6, -2, 0])]))).toBe(false);
  });
});
