/** What the engine says, in Spanish: whole sentences with what stands in them, see the parts. */
import type { EngineTable } from '../engine';
import { caseTable } from './engine_case';
import { tablesTable } from './engine_case_table';
import { givenTable } from './engine_given';
import { lightTable } from './engine_light';
import { photoTable } from './engine_photo';
import { planTable } from './engine_plan';
import { swatchTable } from './engine_swatches';

export const engine: EngineTable = [...lightTable, ...planTable, ...swatchTable, ...caseTable, ...tablesTable, ...photoTable, ...givenTable];
