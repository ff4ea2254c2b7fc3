/**
 * English that the first screen and a reading do without. It comes with the parts of the page that say it
 * (`views/parts`), so that the first screen need not wait for it; nothing before them may use it.
 */
import { caseFile } from './case_file';
import { exports } from './exports';
import { cases } from './cases';
import { compare } from './compare';
import { addWords } from './index';
import { offline } from './offline';
import { practice } from './practice';
import { privacy } from './privacy';

const more = { caseFile, cases, compare, exports, offline, practice, privacy };
export type LaterWords = typeof more;

addWords(more);
