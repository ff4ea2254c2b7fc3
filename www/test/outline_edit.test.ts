import { describe, expect, it } from 'vitest';
import type { Point } from '../src/engine/types';
import { dragPoint, handleIndices, insertPoint, removePoint } from '../src/state/outline_edit';

const circle = (n: number, r = 100): Point[] =>
  Array.from({ length: n }, (_, i) => [r * Math.cos((2 * Math.PI * i) / n), r * Math.sin((2 * Math.PI * i) / n)]);

const gaps = (outline: Point[], handles: number[]) =>
  handles.map((h, i) => {
    const [x0, y0] = outline[h]!;
    const [x1, y1] = outline[handles[(i + 1) % handles.length]!]!;
    return Math.hypot(x1 - x0, y1 - y0);
  });

describe('handles', () => {
  it('stand apart by about the spacing, evenly where points are even', () => {
    const outline = circle(120);
    const handles = handleIndices(outline, 50);
    const apart = gaps(outline, handles);
    expect(Math.min(...apart)).toBeGreaterThan(44);
    expect(Math.max(...apart) / Math.min(...apart)).toBeLessThan(1.6);
  });

  it('stand once at a corner that is rounded by many points', () => {
    const corner = (x: number, y: number): Point[] => [[x, y], [x + 1, y], [x + 1, y + 1], [x, y + 1], [x - 1, y]];
    const card = [corner(0, 0), corner(200, 0), corner(200, 150), corner(0, 150)].flat();
    const handles = handleIndices(card, 50);
    expect(handles).toHaveLength(4);
    expect(Math.min(...gaps(card, handles))).toBeGreaterThan(140);
    for (const keep of [1, 7, 19]) expect(handleIndices(card, 50, keep)).toContain(keep);
  });

  it('are all there when the points are far apart, three at least, and the chosen one always', () => {
    expect(handleIndices(circle(8), 10)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(handleIndices(circle(60), 1e9).length).toBeGreaterThanOrEqual(3);
    for (const keep of [0, 7, 59]) expect(handleIndices(circle(60), 60, keep)).toContain(keep);
  });
});

describe('dragging a point', () => {
  it('moves it whole, its neighbours less, other handles and what is beyond them not', () => {
    const outline = circle(40);
    const moved = dragPoint(outline, 8, [0, 8, 16, 24, 32], 10, -4);
    const by = moved.map(([x], i) => x - outline[i]![0]);
    expect(by[8]).toBeCloseTo(10);
    expect(moved[8]![1] - outline[8]![1]).toBeCloseTo(-4);
    expect(by[4]).toBeCloseTo(5);
    expect(by[12]).toBeCloseTo(5);
    for (const i of [0, 16, 24, 32, 20, 36]) expect(by[i]).toBeCloseTo(0);
  });

  it('wraps around the start of the outline', () => {
    const outline = circle(12);
    const moved = dragPoint(outline, 0, [0, 4, 8], 8, 0);
    expect(moved[11]![0] - outline[11]![0]).toBeCloseTo(6);
  });
});

describe('adding and removing', () => {
  it('adds halfway to the next point, after the last one too', () => {
    const square: Point[] = [[0, 0], [10, 0], [10, 10], [0, 10]];
    expect(insertPoint(square, 0)).toEqual({ outline: [[0, 0], [5, 0], [10, 0], [10, 10], [0, 10]], index: 1 });
    expect(insertPoint(square, 3).outline.at(-1)).toEqual([0, 5]);
  });

  it('removes a handle with the points that only it stood for', () => {
    const rest = removePoint(circle(12), 4, [0, 4, 8]);
    expect(rest).toHaveLength(12 - 7);
  });

  it('never leaves fewer than three points', () => {
    const triangle = circle(3);
    expect(removePoint(triangle, 1, [0, 1, 2])).toEqual(triangle);
  });
});
