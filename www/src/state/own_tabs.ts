/** The colours of the user's own tabs while they are typed, and the guide they make. */
import { ZONES, type Guide, type GuideZones, type Lab, type Zone } from '../engine/types';
import { inField, numberOf } from './typed_number';

/** What stands in the fields: typed text, empty where nothing is known. */
export type Cells = readonly [string, string, string];

export interface TabDraft {
  readonly name: string;
  readonly cells: Readonly<Record<Zone, Cells>>;
}

export interface Draft {
  readonly name: string;
  readonly tabs: readonly TabDraft[];
}

/** What any tab has been measured at, with room around it; a slip of the finger lies outside. */
export const RANGES = [
  { name: 'L*', min: 30, max: 100 },
  { name: 'a*', min: -10, max: 15 },
  { name: 'b*', min: -5, max: 45 },
] as const;

export type Fault =
  | { code: 'nameless' | 'twice' | 'missing'; row: number }
  | { code: 'range'; row: number; zone: Zone; axis: number }
  | { code: 'none' };

const EMPTY: Cells = ['', '', ''];
export const emptyTab = (name = ''): TabDraft => ({ name, cells: { cervical: EMPTY, middle: EMPTY, incisal: EMPTY, whole: EMPTY } });

const typed = (lab: Lab | undefined): Cells => (lab ? (lab.map(inField) as unknown as Cells) : EMPTY);

export const draftOf = (guide: Guide, name: string): Draft => ({
  name,
  tabs: guide.tabs.map(({ name, lab, zones }) => ({
    name,
    cells: { cervical: typed(zones?.cervical), middle: typed(zones?.middle), incisal: typed(zones?.incisal), whole: typed(lab) },
  })),
});

/** The same tabs by name, colours still to be measured. */
export const emptied = ({ name, tabs }: Draft): Draft => ({ name, tabs: tabs.map((t) => emptyTab(t.name)) });

const isBlank = (cells: Cells): boolean => cells.every((text) => text.trim() === '');

/** Tabs that nobody typed anything for are left out. */
const isUnused = (tab: TabDraft): boolean => ZONES.every((zone) => isBlank(tab.cells[zone]));

export function faultsOf({ tabs }: Draft): Fault[] {
  const names = tabs.filter((t) => !isUnused(t)).map((t) => t.name.trim());
  const faults = tabs.flatMap((tab, row): Fault[] => {
    if (isUnused(tab)) return [];
    const name = tab.name.trim();
    const found: Fault[] = name === '' ? [{ code: 'nameless', row }] : names.filter((n) => n === name).length > 1 ? [{ code: 'twice', row }] : [];
    if (isBlank(tab.cells.whole)) found.push({ code: 'missing', row });
    for (const zone of ZONES) {
      if (isBlank(tab.cells[zone])) continue;
      RANGES.forEach(({ min, max }, axis) => {
        const text = tab.cells[zone][axis]!;
        const value = numberOf(text);
        if (text.trim() === '' || !(value >= min && value <= max)) found.push({ code: 'range', row, zone, axis });
      });
    }
    return found;
  });
  return names.length === 0 ? [{ code: 'none' }] : faults;
}

const labOf = (cells: Cells): Lab => cells.map(numberOf) as Lab;

/** Of a draft without faults. */
export function guideOf({ name, tabs }: Draft, note: string): Guide {
  return {
    name: name.trim(),
    source: 'measured',
    tabs: tabs
      .filter((tab) => !isUnused(tab))
      .map((tab) => {
        const zones: GuideZones = {};
        for (const zone of ['cervical', 'middle', 'incisal'] as const) if (!isBlank(tab.cells[zone])) zones[zone] = labOf(tab.cells[zone]);
        return { name: tab.name.trim(), lab: labOf(tab.cells.whole), ...(Object.keys(zones).length ? { zones } : {}) };
      }),
    note,
  };
}
