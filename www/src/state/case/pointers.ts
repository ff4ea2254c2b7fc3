/** Which case this window has, and whether any is kept: noted where it can be read at once. */
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

export const note = (id: string | null): void => void quietly(() => (id === null ? localStorage.removeItem(HINT) : localStorage.setItem(HINT, '1')));
