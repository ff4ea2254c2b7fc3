/** Under which name a worker of the single-file edition is given its module. */
export const PROGRAM = 'tabsideProgram';
