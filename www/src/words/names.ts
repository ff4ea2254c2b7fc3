import type { RegionKind, Scene, Zone } from '../engine/types';
import { engineWords } from './engine';
import { regionById, regionIdOf, stepIndexOf, type ShapeKey } from '../state/shapes';

const kind: Record<RegionKind, string> = { tooth: 'Tooth', restoration: 'Restoration', tab: 'Tab' };

/** a, b … z, aa, ab …: a number could be taken for the number that the tooth has in the mouth. */
const letter = (at: number): string => (at >= 26 ? letter(Math.floor(at / 26) - 1) : '') + String.fromCharCode(97 + (at % 26));

/**
 * "Tab A2", "Tooth"; where there are several, "Tab 3", "Tooth c". Counted among all tabs, or all
 * teeth and restorations, so that naming one or saying what it is leaves the others as they are.
 */
function region(scene: Scene, id: string): string {
  const found = regionById(scene, id);
  if (!found) return id;
  if (found.name) return `${kind[found.kind]} ${found.name}`;
  if (scene.regions.filter((r) => r.kind === found.kind).length < 2) return kind[found.kind];
  const isTab = found.kind === 'tab';
  const at = scene.regions.filter((r) => (r.kind === 'tab') === isTab).indexOf(found);
  return `${kind[found.kind]} ${isTab ? at + 1 : letter(at)}`;
}

/** Within a sentence: "Tooth 11", but "the tooth". */
export const the = (what: string): string => (Object.values(kind).includes(what) ? `the ${what.toLowerCase()}` : what);

/** A tab as the report names it: one without a name by its id. */
const tab = (scene: Scene, name: string): string => {
  const nameless = scene.regions.find((r) => r.id === name && r.kind === 'tab' && !r.name);
  return nameless ? region(scene, nameless.id) : name;
};

/** Ids that this page gives; any other could be a word of the sentence. */
const OWN_ID = /(?<![\w-])(?:tooth|restoration|tab)-\d+(?![\w-])/g;

/** The report's sentences in this language, with regions that have no name called as they are here. */
export const saidWith = (nameOf: (scene: Scene, id: string) => string) => (scene: Scene, text: string): string =>
  engineWords(
    scene.regions
      .filter((r) => !r.name)
      .reduce((sofar, r) => sofar.replaceAll(`${kind[r.kind]} “${r.id}”`, nameOf(scene, r.id)).replaceAll(`“${r.id}”`, nameOf(scene, r.id)), text)
      .replace(OWN_ID, (id) => nameOf(scene, id)),
  );

const said = saidWith(region);

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
  tab,
  said,
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
