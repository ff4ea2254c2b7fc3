/** Which region is what, and what is compared with what: a document in, its changes out. Pure. */
import type { Region, RegionKind } from '../engine/types';
import type { Doc } from './doc';
import { withRegion } from './scene_edit';
import { regionById } from './shapes';

/** The tooth that may be the restoration, while nobody has said so. */
export function pendingRestoration({ scene, proposal }: Doc): Region | null {
  if (scene.regions.some((r) => r.kind === 'restoration')) return null;
  const region = regionById(scene, proposal.restoration);
  return region?.kind === 'tooth' ? region : null;
}

/** What is compared with: the user's choice, else the proposal as long as it can be one. */
export function targetOf({ scene, target, proposal }: Doc): string | undefined {
  const usable = (id: string | undefined) => {
    const region = regionById(scene, id);
    return region && region.kind !== 'restoration' ? region.id : undefined;
  };
  return usable(target) ?? usable(proposal.target);
}

/** When a region becomes a restoration, what it is compared with is settled with it. */
export function withKind(doc: Doc, id: string, kind: RegionKind): Partial<Doc> {
  const scene = withRegion(doc.scene, id, { kind });
  if (kind !== 'restoration') return { scene };
  const { restoration: _, ...proposal } = doc.proposal;
  return { scene, target: targetOf({ ...doc, scene }), proposal };
}

export const withoutRestoration = ({ proposal: { restoration: _, ...proposal } }: Doc): Partial<Doc> => ({ proposal });
