import type { RegionKind, Scene, Zone } from '../engine/types';
import { regionById, regionIdOf, stepIndexOf, type ShapeKey } from '../state/shapes';

const kind: Record<RegionKind, string> = { tooth: 'Tooth', restoration: 'Restoration', tab: 'Tab' };

/** "Tab A2", "Tooth", "Tooth 2" for the second without a name. */
function region(scene: Scene, id: string): string {
  const found = regionById(scene, id);
  if (!found) return id;
  if (found.name) return `${kind[found.kind]} ${found.name}`;
  const nameless = scene.regions.filter((r) => r.kind === found.kind && !r.name);
  const at = nameless.indexOf(found);
  return at > 0 ? `${kind[found.kind]} ${at + 1}` : kind[found.kind];
}

/** The name without the kind, for where the kind stands beside it. */
function own(scene: Scene, id: string): string {
  const full = region(scene, id);
  const found = regionById(scene, id);
  return found ? full.slice(kind[found.kind].length).trim() : full;
}

/** For the photo, where there is little room: the name alone, the kind when there is none. */
const short = (scene: Scene, key: ShapeKey): string => {
  const id = regionIdOf(key);
  const step = stepIndexOf(key);
  if (step !== null) return `${step + 1}`;
  if (key === 'second') return 'Card 2';
  return id === null ? 'Card' : regionById(scene, id)?.name || region(scene, id);
};

export const names = {
  kind,
  short,
  own,
  /** For narrow heads: may break where the soft hyphen is. */
  kindHead: { tooth: 'Tooth', restoration: 'Resto\u00adration', tab: 'Tab' } satisfies Record<RegionKind, string>,
  region,
  shape(scene: Scene, key: ShapeKey): string {
    const step = stepIndexOf(key);
    if (step !== null) return `Card step ${step + 1}`;
    const id = regionIdOf(key);
    if (key === 'second') return 'Card at a second place';
    return id === null ? 'Grey card' : region(scene, id);
  },
  tool: (tool: string): string =>
    ({ card: 'the card', step: 'the card step', second: 'the card at its second place', tab: 'the tab', tooth: 'the tooth', restoration: 'the restoration' })[tool] ?? 'this',
  zone: { cervical: 'Cervical third', middle: 'Middle third', incisal: 'Incisal third', whole: 'Whole' } satisfies Record<Zone, string>,
  zoneShort: { cervical: 'Cervical', middle: 'Middle', incisal: 'Incisal', whole: 'Whole' } satisfies Record<Zone, string>,
};
