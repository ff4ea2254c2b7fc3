/** The workers, as files beside the page. The single-file edition has them inside (`offline/single`). */
import type { WorkerLike } from './client';

const asUsed = (worker: Worker): WorkerLike => worker as unknown as WorkerLike;

/** Reads photos. */
export const startReader = (): WorkerLike => asUsed(new Worker(new URL('../worker/main.ts', import.meta.url), { type: 'module' }));

/** Files of cases. */
export const startCases = (): WorkerLike => asUsed(new Worker(new URL('../worker/case.ts', import.meta.url), { type: 'module' }));
