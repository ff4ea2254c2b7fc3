/** The page's one door to files of cases. */
import { CaseDesk } from './case_desk';
import { startCases } from './workers';

export const caseDesk = new CaseDesk(startCases);
