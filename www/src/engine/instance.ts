/** The page's one desk. */
import { Desk } from './desk';
import { startReader } from './workers';

/** With one core a second worker would only take memory. Some browsers do not tell. */
const cores: number | undefined = globalThis.navigator?.hardwareConcurrency;

export const desk = new Desk(startReader, cores === 1 ? ['front'] : ['front', 'helper']);
