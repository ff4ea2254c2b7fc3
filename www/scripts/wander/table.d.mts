import type { Walked } from './walk.mjs';

export function faults(result: Walked): string[];
export function tableOf(result: Walked): string;
