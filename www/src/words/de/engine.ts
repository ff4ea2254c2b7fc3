/**
 * What the engine says, in German. Entries stand for one sentence each (also one before a semicolon),
 * so that texts that are put together are found sentence by sentence.
 */
import type { EngineTable } from '../engine';
import { cases } from './engine_case';
import { tables } from './engine_case_table';
import { errors } from './engine_errors';
import { light } from './engine_light';
import { parts } from './engine_parts';
import { stain } from './engine_stain';
import { swatch } from './engine_swatch';

export const engine: EngineTable = [...parts, ...light, ...stain, ...swatch, ...cases, ...tables, ...errors];
