/** What is on the desk and can be undone: photos, scene, the choice of target, the shade guide. */
import type { OpenPhoto } from '../engine/desk';
import type { Guide, Scene } from '../engine/types';

export interface Doc {
  readonly photo: OpenPhoto | null;
  readonly polarised: OpenPhoto | null;
  readonly scene: Scene;
  /** The region that restorations are compared with; the engine chooses when unset. */
  readonly target: string | undefined;
  /** The shade guide the user chose; `null` for the one that comes with the program. */
  readonly guide: Guide | null;
}

export const EMPTY_SCENE: Scene = { card: null, regions: [] };

export const EMPTY_DOC: Doc = { photo: null, polarised: null, scene: EMPTY_SCENE, target: undefined, guide: null };
