/** The page's one desk. */
import { Desk } from './desk';
import { startReader } from './workers';

export const desk = new Desk(startReader);
