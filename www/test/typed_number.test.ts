import { describe, expect, it } from 'vitest';
import { numberOf, typedNumber } from '../src/state/typed_number';

describe('a typed number', () => {
  it('may have a comma or a point, and any minus or dash', () => {
    expect(['1,5', ' 1.5 ', '.5', '2.', '+3'].map(numberOf)).toEqual([1.5, 1.5, 0.5, 2, 3]);
    for (const minus of ['-', '−', '–', '—', '‐', '‑', '‒', '﹣', '－']) expect([minus, numberOf(`${minus}2,25`)]).toEqual([minus, -2.25]);
  });

  it('is nothing else', () => {
    for (const text of ['', ' ', '-', '1,5,2', '1.000,5', '2 3', '1e3', '0x10', 'two', 'Infinity']) expect([text, numberOf(text)]).toEqual([text, NaN]);
    expect([typedNumber(-1.234), typedNumber(3)]).toEqual(['−1.23', '3']);
  });
});
