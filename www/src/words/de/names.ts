import type { RegionKind, Scene } from '../../engine/types';
import { regionById, regionIdOf, stepIndexOf } from '../../state/shapes';
import type { Words } from '../index';
import { saidWith } from '../names';

const kind: Record<RegionKind, string> = { tooth: 'Zahn', restoration: 'Restauration', tab: 'Farbmuster' };

const letter = (at: number): string => (at >= 26 ? letter(Math.floor(at / 26) - 1) : '') + String.fromCharCode(97 + (at % 26));

/** As in English: the same outline has the same number or letter in every language. */
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
  short(scene, key) {
    const id = regionIdOf(key);
    const step = stepIndexOf(key);
    if (step !== null) return `${step + 1}`;
    if (key === 'second') return 'Karte 2';
    return id === null ? 'Karte' : regionById(scene, id)?.name || region(scene, id);
  },
  own(scene, id) {
    const full = region(scene, id);
    const found = regionById(scene, id);
    return found ? full.slice(kind[found.kind].length).trim() : full;
  },
  kindHead: { tooth: 'Zahn', restoration: 'Res\u00adtau\u00adration', tab: 'Farb\u00admus\u00adter' },
  region,
  tab(scene, name) {
    const nameless = scene.regions.find((r) => r.id === name && r.kind === 'tab' && !r.name);
    return nameless ? region(scene, nameless.id) : name;
  },
  said: saidWith(region),
  shape(scene, key) {
    const step = stepIndexOf(key);
    if (step !== null) return `Graustufe ${step + 1}`;
    const id = regionIdOf(key);
    if (key === 'second') return 'Karte an zweiter Stelle';
    return id === null ? 'Graukarte' : region(scene, id);
  },
  tool: (tool) => ({ card: 'die Karte', step: 'die Graustufe', second: 'die Karte an ihrer zweiten Stelle', tab: 'das Farbmuster', tooth: 'den Zahn', restoration: 'die Restauration' })[tool] ?? 'dies',
  zone: { cervical: 'Zervikales Drittel', middle: 'Mittleres Drittel', incisal: 'Inzisales Drittel', whole: 'Gesamt' },
  zoneShort: { cervical: 'Zervikal', middle: 'Mitte', incisal: 'Inzisal', whole: 'Gesamt' },
};
