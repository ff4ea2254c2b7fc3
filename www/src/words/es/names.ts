import type { RegionKind, Scene } from '../../engine/types';
import { regionById, regionIdOf, stepIndexOf } from '../../state/shapes';
import type { Words } from '../index';
import { saidWith } from '../names';

const kind: Record<RegionKind, string> = { tooth: 'Diente', restoration: 'Restauración', tab: 'Muestra' };

/** a, b … z, aa, ab …: a number could be taken for the number that the tooth has in the mouth. */
const letter = (at: number): string => (at >= 26 ? letter(Math.floor(at / 26) - 1) : '') + String.fromCharCode(97 + (at % 26));

/** "Muestra A2", "Diente"; where there are several, "Muestra 3", "Diente c". Counted as in English. */
function region(scene: Scene, id: string): string {
  const found = regionById(scene, id);
  if (!found) return id;
  if (found.name) return `${kind[found.kind]} ${found.name}`;
  if (scene.regions.filter((r) => r.kind === found.kind).length < 2) return kind[found.kind];
  const isTab = found.kind === 'tab';
  const at = scene.regions.filter((r) => (r.kind === 'tab') === isTab).indexOf(found);
  return `${kind[found.kind]} ${isTab ? at + 1 : letter(at)}`;
}

export const names: Words['names'] = {
  kind,
  region,
  said: saidWith(region),
  tab(scene, name) {
    const nameless = scene.regions.find((r) => r.id === name && r.kind === 'tab' && !r.name);
    return nameless ? region(scene, nameless.id) : name;
  },
  own(scene, id) {
    const full = region(scene, id);
    const found = regionById(scene, id);
    return found ? full.slice(kind[found.kind].length).trim() : full;
  },
  short(scene, key) {
    const id = regionIdOf(key);
    const step = stepIndexOf(key);
    if (step !== null) return `${step + 1}`;
    if (key === 'second') return 'Tarjeta 2';
    return id === null ? 'Tarjeta' : regionById(scene, id)?.name || region(scene, id);
  },
  kindHead: { tooth: 'Diente', restoration: 'Res\u00adtau\u00adra\u00adción', tab: 'Mues\u00adtra' },
  shape(scene, key) {
    const step = stepIndexOf(key);
    if (step !== null) return `Parche de gris ${step + 1}`;
    const id = regionIdOf(key);
    if (key === 'second') return 'Tarjeta en un segundo lugar';
    return id === null ? 'Tarjeta gris' : region(scene, id);
  },
  tool: (tool) =>
    ({ card: 'la tarjeta', step: 'el parche de gris', second: 'la tarjeta en su segundo lugar', tab: 'la muestra', tooth: 'el diente', restoration: 'la restauración' })[tool] ?? 'esto',
  zone: { cervical: 'Tercio cervical', middle: 'Tercio medio', incisal: 'Tercio incisal', whole: 'Conjunto' },
  zoneShort: { cervical: 'Cervical', middle: 'Medio', incisal: 'Incisal', whole: 'Conjunto' },
};
