export interface Chance {
  next(): number;
  below(most: number): number;
  between(from: number, to: number): number;
  oneOf<T>(list: readonly T[]): T;
  weighed<K extends string>(weights: Record<K, number>): K;
}

export function chance(seed: number, step: number): Chance;
