/** The page's one desk. */
import type { WorkerLike } from './client';
import { Desk } from './desk';

export const desk = new Desk(
  () => new Worker(new URL('../worker/main.ts', import.meta.url), { type: 'module' }) as unknown as WorkerLike,
);
