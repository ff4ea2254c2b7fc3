/**
 * Everything the page says, in one place. A translation is a second object of the same shape.
 * What the engine says (checks, differences, advice) arrives in words already.
 */
import { app } from './app';
import { clock } from './clock';
import { edits, status } from './doing';
import { errors } from './errors';
import { flow } from './flow';
import { found } from './found';
import { names } from './names';
import { numbers } from './numbers';
import { pair } from './pair';
import { sheet } from './sheet';
import { shape } from './shape';
import { stage } from './stage';
import { tabs } from './tabs';
import { trust } from './trust';

export const words = { ...app, clock, edits, errors, flow, found, names, numbers, pair, shape, sheet, stage, status, tabs, trust };

export type Words = typeof words;
