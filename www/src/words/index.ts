/**
 * Everything the page says, in one place. A translation is a second object of the same shape.
 * What the engine says (checks, differences, advice) arrives in words already.
 */
import { app } from './app';
import { edits, status } from './doing';
import { errors } from './errors';
import { flow } from './flow';
import { names } from './names';
import { numbers } from './numbers';
import { sheet } from './sheet';
import { shape } from './shape';
import { stage } from './stage';

export const words = { ...app, edits, errors, flow, names, numbers, shape, sheet, stage, status };

export type Words = typeof words;
