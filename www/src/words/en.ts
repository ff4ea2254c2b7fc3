/** English: the catalogue that is always complete. Every other language has its shape. */
import { app } from './app';
import { clock } from './clock';
import { edits, status } from './doing';
import { errors } from './errors';
import { evenness } from './evenness';
import { flow } from './flow';
import { found } from './found';
import { modes } from './modes';
import { names } from './names';
import { numbers } from './numbers';
import { pair } from './pair';
import { passes, unfired } from './passes';
import { plan } from './plan';
import { practice } from './practice';
import { sheet } from './sheet';
import { shape } from './shape';
import { stage } from './stage';
import { swatches } from './swatches';
import { tabs } from './tabs';
import { trust } from './trust';
import { typed } from './typed';

export const english = { ...app, clock, edits, errors, evenness, flow, found, modes, names, numbers, pair, passes, plan, practice, shape, sheet, stage, status, swatches, tabs, trust, typed, unfired };
