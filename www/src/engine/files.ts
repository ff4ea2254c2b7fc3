/** The files of open photos, and what was found in them: the same for every reader. */
import { EngineError, type Found } from './types';

export interface Filed {
  /** `null` for a photo that is not here: only what was read of it is. */
  readonly file: Blob | null;
  /** What the search found: the same photo gives the same. */
  found: Found | null;
  /** While it is searched. */
  searching: Promise<unknown> | null;
}

export interface Named {
  readonly handle: number;
  readonly name: string;
}

export class Files {
  readonly #all = new Map<number, Filed>();

  add(handle: number, file: Blob | null): Filed {
    const filed: Filed = { file, found: null, searching: null };
    this.#all.set(handle, filed);
    return filed;
  }

  /** Gives what there was. */
  remove(handle: number): Filed | undefined {
    const filed = this.#all.get(handle);
    this.#all.delete(handle);
    return filed;
  }

  of({ handle, name }: Named): Filed {
    const filed = this.#all.get(handle);
    if (!filed) throw new EngineError('input', `${name} is no longer open.`);
    return filed;
  }

  has(filed: Filed): boolean {
    return [...this.#all.values()].includes(filed);
  }
}
