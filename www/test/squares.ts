import type { Point } from '../src/engine/types';

export const square = (x: number, y: number, size = 10): Point[] => [[x, y], [x + size, y], [x + size, y + size], [x, y + size]];
