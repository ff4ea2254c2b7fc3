/** What comes with the parts of the page that are fetched after its first screen. */
import { partMissing } from './problems';

/** The parts; null, and the user is told, where they do not come. */
export const parts = (): Promise<typeof import('../views/parts') | null> => import('../views/parts').catch(() => (partMissing(), null));
