/** What a plan's restoration and target are called: kept without words, said in the language of the page. */
import type { RegionKind, Scene } from '../../engine/types';
import { regionById } from '../shapes';
import { words } from '../../words';

/** Kind and own name of an outline; `null` for typed colours. Works of earlier versions hold the words themselves. */
export type Called = { readonly kind: RegionKind; readonly own: string } | string | null;

export interface Names<T> {
  readonly restoration: T;
  readonly target: T;
}

export const TYPED_NAMES: Names<Called> = { restoration: null, target: null };

/** The outline's letter or number among others goes with it: another photo may hold other outlines. */
export function calledIn(scene: Scene, id: string): Called {
  const kind = regionById(scene, id)?.kind;
  return kind ? { kind, own: words.names.own(scene, id) } : id;
}

const said = (called: Called, typed: string): string => (called === null ? typed : typeof called === 'string' ? called : `${words.names.kind[called.kind]} ${called.own}`.trim());

export const saidNames = ({ restoration, target }: Names<Called>): Names<string> => ({ restoration: said(restoration, words.plan.typedFrom), target: said(target, words.plan.typedTo) });
