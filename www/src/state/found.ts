/** What the search found, put into a scene without touching what is there. Pure. */
import type { Found, FoundRegion, Point, Scene } from '../engine/types';
import type { Proposal } from './doc';
import { added } from './scene_edit';
import { contains, middleOf } from './shapes';

export interface PutFound {
  scene: Scene;
  proposal: Proposal;
  /** What was added. */
  card: boolean;
  tabs: number;
  teeth: number;
}

/** Two outlines of the same thing: the middle of one lies in the other. */
export const sameThing = (a: readonly Point[], b: readonly Point[]): boolean => contains(a, middleOf(b)) || contains(b, middleOf(a));

/** Teeth keep the search's order; tabs are counted from the left. */
function inOrder(regions: readonly FoundRegion[]): { found: FoundRegion; at: number }[] {
  const all = regions.map((found, at) => ({ found, at }));
  const tabs = all.filter(({ found }) => found.kind === 'tab');
  tabs.sort((a, b) => middleOf(a.found.outline)[0] - middleOf(b.found.outline)[0]);
  return [...all.filter(({ found }) => found.kind !== 'tab'), ...tabs];
}

export function withFound(scene: Scene, found: Found): PutFound {
  const card = scene.card === null && found.card !== undefined;
  let next: Scene = card ? { ...scene, card: { outline: found.card!.outline } } : scene;
  const idOf = new Map<number, string>();
  let [tabs, teeth] = [0, 0];
  for (const { found: region, at } of inOrder(found.regions)) {
    const there = scene.regions.find((r) => sameThing(r.outline, region.outline));
    if (there) {
      if (there.kind !== 'tab') idOf.set(at, there.id);
      continue;
    }
    const { kind, outline, cervical, incisal } = region;
    const put = added(next, { kind, name: '', outline, cervical, incisal });
    next = put.scene;
    idOf.set(at, put.id);
    if (kind === 'tab') tabs++;
    else teeth++;
  }
  const restoration = found.restoration === undefined ? undefined : idOf.get(found.restoration);
  const target = found.target === undefined ? undefined : idOf.get(found.target);
  const steps = card ? (found.card?.steps ?? []) : [];
  const proposal: Proposal = {
    ...(restoration !== undefined && { restoration }),
    ...(target !== undefined && { target }),
    ...(steps.length > 1 && { cardSteps: steps }),
  };
  return { scene: next, proposal, card, tabs, teeth };
}
