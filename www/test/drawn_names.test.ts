/** Names drawn into the photo, for paper and for pictures that are saved, stay within their outlines. */
import { expect, it } from 'vitest';
import type { Region, Scene } from '../src/engine/types';
import { written } from '../src/stage/draw_outlined';
import { square } from './squares';

/** Letters are as wide as ten pixels of the canvas. */
const context = { measureText: (text: string) => ({ width: 10 * text.length }) as TextMetrics };
const region = (id: string, kind: Region['kind'], size: number, name?: string): Region => ({ id, kind, outline: square(0, 0, size), ...(name ? { name } : {}) }) as Region;
const drawn = (regions: Region[]) => written(context, { regions } as Scene, { k: 2, x: 5, y: 7 });

// A pixel’s middle is half a pixel from its number.
it('writes the whole name where each of the kind has room for it, in the middle', () => {
  expect(drawn([region('a', 'tooth', 40), region('b', 'tooth', 35)])).toEqual([
    { text: 'Tooth a', at: [46, 48], width: 80 },
    { text: 'Tooth b', at: [41, 43], width: 70 },
  ]);
});

it('leaves out the kind for all of a kind where one has no room', () => {
  expect(drawn([region('a', 'tooth', 40), region('b', 'tooth', 34), region('c', 'tab', 40), region('d', 'tab', 40)]).map(({ text }) => text)).toEqual(['a', 'b', 'Tab 1', 'Tab 2']);
});

it('narrows what has no shorter name, but not to where nobody reads it', () => {
  expect(drawn([region('a', 'restoration', 50)])).toMatchObject([{ text: 'Restoration', width: 100 }]);
  expect(drawn([region('a', 'restoration', 5)])).toMatchObject([{ text: 'Restoration', width: 66 }]);
  expect(drawn([region('a', 'tooth', 20, 'beside the gap')])).toMatchObject([{ text: 'beside the gap', width: 84 }]);
});
