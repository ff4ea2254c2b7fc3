/** What a tap or a dragged box on the photo does with the tool in hand. */
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import { EngineError, type FoundRegion, type Point, type Rect, type RegionKind } from '../engine/types';
import { words } from '../words';
import { change, changeScene, doc, guide, photo, scene } from './desk';
import { suggestedTabName } from './flow';
import { putCard } from './card_put';
import { startRound, nextOutline } from './next_outline';
import { noteGuide } from './remarks';
import { report } from './problems';
import { makeRestoration, giveRegionName } from './role_edit';
import { withKind } from './roles';
import { added } from './scene_edit';
import { contains, middleOf, regionById, regionIdOf, regionKey, shapeAt, shapeNear, type ShapeKey } from './shapes';
import { problem, say, whileBusy } from './status';
import { chosenTabName, select, selected, tool, ofCard, view, type Tool } from './ui';

/** A tap this near to an outline means it, in CSS pixels. */
const REACH_PX = 9;
/** Two taps quicker than this are one: many tap twice to enlarge. */
const DOUBLE_TAP_MS = 350;
let chosenAt = -Infinity;

/** Whether a tap without a tool selects another outline, and changes nothing. */
export function onlySelects(at: Point): boolean {
  const hit = shapeNear(scene.value, at, REACH_PX / view.value.k);
  return hit !== null && hit !== selected.value;
}

/** `when`: on the clock of `performance.now`, where it is carried out later than it was done. */
export async function tapPhoto(at: Point, when = performance.now()): Promise<void> {
  const held = tool.value;
  const hit = held === 'look' ? shapeNear(scene.value, at, REACH_PX / view.value.k) : shapeAt(scene.value, at);
  // A card that is tapped again is outlined again.
  if (hit && hit !== held) return tapOutline(hit, at, held, when);
  if (ofCard(held)) return outline(held, (open, signal) => desk.outlineCard(open, at, { signal }).then((points) => void putCard(held, points)));
  await outline(held, async (open, signal) => {
    const choices = await desk.outlineChoices(open, at, { signal });
    // The search may have been quicker.
    const there = shapeAt(scene.value, at);
    if (there) return choose(there);
    if (held === 'look') return putChoice(open, choices);
    putRegion(held, forKind(held, choices));
  });
}

export async function boxPhoto(box: Rect): Promise<void> {
  const held = tool.value;
  if (!ofCard(held)) return;
  await outline(held, (open, signal) => desk.outlineCardIn(open, box, { signal }).then((points) => void putCard(held, points)));
}

/** Without a tap: a rectangle, selected so that it can be moved by numbers. */
export function putByNumbers(held: Tool, { x, y, width, height }: Rect): void {
  const outline: Point[] = [[x, y], [x + width, y], [x + width, y + height], [x, y + height]];
  if (held === 'look') return;
  const key = ofCard(held) ? putCard(held, outline) : putRegion(held, { outline, cervical: [x + width / 2, y], incisal: [x + width / 2, y + height] });
  select(key);
}

/** A tool in hand says what an outline is; else the first tap selects it and each further one mends it. */
async function tapOutline(hit: ShapeKey, at: Point, held: Tool, when: number): Promise<void> {
  const region = regionById(scene.value, regionIdOf(hit));
  if (!region) return choose(hit);
  if (held === 'restoration' && region.kind === 'tooth') return makeRestoration(region.id);
  if (held === 'tab' && region.kind === 'tab' && !region.name) {
    giveRegionName(region.id, nextTabName());
    chosenTabName.value = null;
    return say(words.status.isNow(words.names.shape(scene.value, hit)));
  }
  if (hit === selected.value) return when - chosenAt < DOUBLE_TAP_MS ? undefined : nextOutline(region.id, at);
  choose(hit);
}

function choose(hit: ShapeKey): void {
  if (hit !== selected.value) chosenAt = performance.now();
  select(hit);
  say(words.status.selected(words.names.shape(scene.value, hit)));
}

async function outline(held: Tool, find: (open: OpenPhoto, signal: AbortSignal) => Promise<void>): Promise<void> {
  const open = photo.value;
  if (!open) return;
  problem.value = null;
  try {
    await whileBusy(words.busy.outlining, (signal) => find(open, signal));
  } catch (error) {
    report(words.errors.outlineFailed(words.names.tool(held)), error, words.errors.outlineByHand);
  }
}

/** Without a word of what it is, gums and shadows are not outlined. */
const LEAST_SURE = 0.02;

/** With no tool in hand: the likeliest thing, selected, so that a further tap brings the next. */
function putChoice(open: OpenPhoto, choices: readonly FoundRegion[]): void {
  // Two teeth that are outlined already are not one more.
  const covers = ({ outline }: FoundRegion) => scene.value.regions.some((r) => contains(outline, middleOf(r.outline)));
  const first = choices.find((c) => c.sure >= LEAST_SURE && !covers(c));
  if (!first) {
    select(null);
    return noteGuide(words.found.notThere);
  }
  const key = putRegion(first.kind, first);
  startRound(open, regionIdOf(key)!, choices);
  select(key);
  chosenAt = performance.now();
}

/** The likeliest outline of that kind; where there is none, the likeliest at all. */
function forKind(kind: RegionKind, choices: readonly FoundRegion[]): FoundRegion {
  const alike = choices.find((c) => (c.kind === 'tab') === (kind === 'tab')) ?? choices[0];
  if (!alike) throw new EngineError('input', words.errors.nothingThere);
  return alike;
}

export const nextTabName = (): string => chosenTabName.value ?? suggestedTabName(doc.value, guide.value);

/** With a tool in hand it stays unselected, so that several can be tapped in a row. */
function putRegion(kind: RegionKind, { outline, cervical, incisal }: Pick<FoundRegion, 'outline' | 'cervical' | 'incisal'>): ShapeKey {
  // A name is given by who has the tool in hand, never by the search.
  const name = kind === 'tab' && tool.value === 'tab' ? nextTabName() : '';
  const next = added(scene.value, { kind, name, outline, cervical, incisal });
  const label = words.edits.addRegion(words.names.kind[kind]);
  if (kind === 'restoration') change(label, withKind({ ...doc.value, scene: next.scene }, next.id, kind));
  else changeScene(label, () => next.scene);
  chosenTabName.value = null;
  const key = regionKey(next.id);
  say(words.status.outlined(words.names.shape(next.scene, key)));
  return key;
}
