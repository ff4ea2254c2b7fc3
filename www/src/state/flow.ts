/** The guided steps: what is done and what comes next. */
import type { Guide } from '../engine/types';
import type { Doc } from './doc';

export type StepName = 'photo' | 'card' | 'tabs' | 'teeth';
export type Next = StepName | 'reading';

export interface FlowStep {
  name: StepName;
  done: boolean;
  /** How many are there, for the label. */
  count: number;
}

export function flowSteps({ photo, scene }: Doc): FlowStep[] {
  const of = (...kinds: string[]) => scene.regions.filter((r) => kinds.includes(r.kind)).length;
  const card = scene.card ? 1 : 0;
  const step = (name: StepName, count: number): FlowStep => ({ name, count, done: count > 0 });
  return [step('photo', photo ? 1 : 0), step('card', card), step('tabs', of('tab')), step('teeth', of('tooth', 'restoration'))];
}

/** Tabs are wanted but not needed: teeth alone can be read against the guide. */
export function nextStep(doc: Doc): Next {
  const [photo, card, tabs, teeth] = flowSteps(doc);
  if (!photo?.done) return 'photo';
  if (!card?.done) return 'card';
  if (teeth?.done) return 'reading';
  return tabs?.done ? 'teeth' : 'tabs';
}

/** The guide's first name that no tab of the scene bears yet. */
export function suggestedTabName(doc: Doc, guide: Guide | null): string {
  const used = new Set(doc.scene.regions.filter((r) => r.kind === 'tab').map((r) => r.name));
  const names = guide?.tabs.map((tab) => tab.name) ?? [];
  const last = doc.scene.regions.filter((r) => r.kind === 'tab' && r.name).at(-1)?.name;
  const after = last === undefined ? [] : names.slice(names.indexOf(last) + 1);
  return [...after, ...names].find((name) => !used.has(name)) ?? '';
}
