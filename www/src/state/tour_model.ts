/** The stations of the tour, and the way from one to the next. Pure. */
import type { Side } from './ui';

export interface Station {
  name: 'photo' | 'light' | 'answer' | 'paint' | 'depth' | 'patient';
  /** What it points at: the first of these that is there. */
  at: readonly string[];
  /** Which of the two a phone shows then. */
  side: Side;
}

export const STATIONS: readonly Station[] = [
  { name: 'photo', at: ['.stage-frame'], side: 'photo' },
  { name: 'light', at: ['[data-tour=light]', '.checks'], side: 'sheet' },
  { name: 'answer', at: ['[data-tour=answer]', '.axis-sheet'], side: 'sheet' },
  { name: 'paint', at: ['[data-tour=paint]', '.axis-sheet .paint', '.advice'], side: 'sheet' },
  { name: 'depth', at: ['[data-tour=depth]', '.panel .depth'], side: 'sheet' },
  { name: 'patient', at: ['[data-tour=patient]'], side: 'sheet' },
];

export const selectorOf = ({ at }: Station, there: (selector: string) => boolean): string | undefined => at.find(there);

/** The next station of which there is something to show; what is missing is passed over. */
export function following(from: number, step: 1 | -1, there: (selector: string) => boolean): number | null {
  for (let i = from + step; i >= 0 && i < STATIONS.length; i += step) if (selectorOf(STATIONS[i]!, there)) return i;
  return null;
}
