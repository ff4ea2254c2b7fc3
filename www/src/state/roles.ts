/** Which region is what, and what is compared with what: a document in, its changes out. Pure. */
import type { Region, RegionKind } from '../engine/types';
import type { Doc } from './doc';
import { withRegion } from './scene_edit';
import { regionById } from './shapes';
import { twinOf } from './twin';

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

/**
 * When a region becomes a restoration, what it is compared with is settled with it. The proposed
 * target is the twin of the proposed restoration alone; any other one has its own.
 */
export function withKind(doc: Doc, id: string, kind: RegionKind): Partial<Doc> {
  const scene = withRegion(doc.scene, id, { kind });
  const was = regionById(doc.scene, id)?.kind === 'restoration';
  // What the one was compared with says nothing about the next.
  if (kind !== 'restoration') return was && !scene.regions.some((r) => r.kind === 'restoration') ? { scene, target: undefined } : { scene };
  const { restoration, target, ...proposal } = doc.proposal;
  const held = restoration === id && target !== undefined ? { target } : {};
  return { scene, target: targetOf({ ...doc, scene, proposal: held }) ?? twinOf(scene, id), proposal: { ...proposal, ...held } };
}

export const withoutRestoration = ({ proposal: { restoration: _, ...proposal } }: Doc): Partial<Doc> => ({ proposal });
