/** An outline that was cut, put back into its scene. Pure. */
import type { FoundRegion, Scene } from '../engine/types';
import { axisLike } from './axis_way';
import { added, reshaped } from './scene_edit';
import { contains, middleOf, regionById } from './shapes';

/** The piece with the old middle stays the region; the other is a new one of its kind. */
export function withPieces(scene: Scene, id: string, pieces: readonly FoundRegion[]): { scene: Scene; other: string | null } {
  const region = regionById(scene, id);
  const middle = region && middleOf(region.outline);
  const kept = pieces.find((p) => middle && contains(p.outline, middle)) ?? pieces[0];
  if (!region || !kept) return { scene, other: null };
  const others = scene.regions.filter((r) => r !== region);
  const next = { ...scene, regions: scene.regions.map((r) => (r.id === id ? reshaped(r, axisLike(kept, region, others)) : r)) };
  const rest = pieces.find((p) => p !== kept);
  if (!rest) return { scene: next, other: null };
  const { outline, cervical, incisal } = axisLike(rest, region, others);
  const put = added(next, { kind: region.kind, name: '', outline, cervical, incisal });
  return { scene: put.scene, other: put.id };
}
