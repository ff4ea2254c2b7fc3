/** Which case this window has, and whether any is kept: noted where it can be read at once. */
import { MODES, type Mode } from '../ui';
import { HERE, HINT } from './safe';

const quietly = <T>(act: () => T): T | null => {
  try {
    return act();
  } catch {
    return null;
  }
};

/** `''` when this window had none at hand; `null` when it is new. */
export const caseHere = (): string | null => quietly(() => sessionStorage.getItem(HERE));
export const noteHere = (id: string | null): void => void quietly(() => sessionStorage.setItem(HERE, id ?? ''));

/** What was shown last. */
const MODE = 'tabside.mode.1';
export const modeBefore = (): Mode | undefined => MODES.find((name) => name === quietly(() => localStorage.getItem(MODE)));
export const noteMode = (mode: Mode): void => void quietly(() => localStorage.setItem(MODE, mode));

export const note = (id: string | null): void => void quietly(() => (id === null ? localStorage.removeItem(HINT) : localStorage.setItem(HINT, '1')));
