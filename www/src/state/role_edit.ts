/** Saying what a region is and what to compare with; answering the program's proposals. */
import type { RegionKind } from '../engine/types';
import { words } from '../words';
import { change, doc, scene } from './desk';
import { pendingRestoration, targetOf, withKind, withoutRestoration } from './roles';
import { withRegion } from './scene_edit';
import { regionById } from './shapes';
import { say } from './status';
import { select, side, tool } from './ui';

export function setKind(id: string, kind: RegionKind): void {
  if (regionById(scene.value, id)?.kind === kind) return;
  change(words.edits.changeKind, withKind(doc.value, id, kind));
  say(words.status.isNow(words.names.region(scene.value, id)));
}

export function compareWith(id: string): void {
  change(words.edits.chooseTarget, { target: id });
  say(words.status.comparedWith(words.names.region(scene.value, id)));
}

/** Said by a tap, or by yes to the proposal. */
export function makeRestoration(id: string): void {
  change(words.edits.isRestoration, withKind(doc.value, id, 'restoration'));
  const target = targetOf(doc.value);
  tool.value = 'look';
  say(target === undefined ? words.status.isRestoration : words.status.restorationAgainst(words.names.region(scene.value, target)));
}

export function acceptProposed(): void {
  const region = pendingRestoration(doc.value);
  if (region) makeRestoration(region.id);
}

/** The next tap says which one it is. */
export function tapAnother(): void {
  tool.value = 'restoration';
  select(null);
  side.value = 'photo';
}

export function thereIsNone(): void {
  change(words.edits.noRestoration, withoutRestoration(doc.value));
  say(words.status.noRestoration);
}

export function giveRegionName(id: string, name: string): void {
  change(words.edits.rename, { scene: withRegion(scene.value, id, { name }) }, `name ${id}`);
}
