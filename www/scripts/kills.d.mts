/** What came of one kill. */
export interface Kill {
  kill: number;
  /** What was being done. */
  doing: string | undefined;
  /** From the first change that is missing to the kill; 0 when nothing is. */
  lostMs: number;
  /** Which that is. */
  what: string;
  compared: number;
  /** A case that is not there, or is other than it ever was. */
  problems: string[];
}

export function runKills(options: { url: string; kills: number; log?: (kill: Kill) => void }): Promise<Kill[]>;
