/** What is on the desk and can be undone: photos with what was made of them, the shade guide, stains. */
import type { OpenPhoto } from '../engine/desk';
import type { Guide, Point, Scene } from '../engine/types';
import { EMPTY_STAINS, type StainsDoc } from './stains/stains_doc';

/** What the search proposes and the user has not settled: regions by id, steps of the card. */
export interface Proposal {
  readonly restoration?: string;
  readonly target?: string;
  /** Neutral steps of the card, the lightest first; their printed values are not known. */
  readonly cardSteps?: Point[][];
}

/** A remark at a place in a photo, in its pixels. */
export interface PhotoNote {
  readonly id: string;
  readonly at: Point;
  readonly text: string;
}

/** What was made of a photo: it goes where the photo goes. */
interface OfPhoto {
  readonly polarised: OpenPhoto | null;
  readonly scene: Scene;
  /** The region that restorations are compared with; the engine chooses when unset. */
  readonly target: string | undefined;
  readonly proposal: Proposal;
  readonly notes: readonly PhotoNote[];
}

/** A photo that is open and not looked at. */
export interface Laid extends OfPhoto {
  readonly photo: OpenPhoto;
}

export interface Doc extends OfPhoto {
  /** The photo that is looked at. */
  readonly photo: OpenPhoto | null;
  readonly tray: readonly Laid[];
  /** The shade guide the user chose; `null` for the one that comes with the program. */
  readonly guide: Guide | null;
  readonly stains: StainsDoc;
}

export const EMPTY_SCENE: Scene = { card: null, regions: [] };

/** Of a photo of which nothing was made yet. */
export const UNTOUCHED: OfPhoto = { polarised: null, scene: EMPTY_SCENE, target: undefined, proposal: {}, notes: [] };

export const EMPTY_DOC: Doc = { photo: null, ...UNTOUCHED, tray: [], guide: null, stains: EMPTY_STAINS };

const UNREAD: readonly (keyof Doc)[] = ['stains', 'tray', 'notes'];

/** Whether two documents are read alike: stains, notes and other photos change no reading. */
export const readAlike = (a: Doc, b: Doc): boolean => (Object.keys(a) as (keyof Doc)[]).every((key) => UNREAD.includes(key) || a[key] === b[key]);
