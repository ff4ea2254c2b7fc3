/** What a tap or a dragged box on the photo does with the tool in hand. */
import { desk } from '../engine/instance';
import type { Point, Rect, RegionKind } from '../engine/types';
import { words } from '../words';
import { changeScene, doc, guide, photo, scene } from './desk';
import { suggestedTabName } from './flow';
import { report } from './problems';
import { added, withCard, withSecondCard } from './scene_edit';
import { regionKey, shapeAt, stepKey, type ShapeKey } from './shapes';
import { problem, say, whileBusy } from './status';
import { chosenTabName, select, tool, type Tool } from './ui';

/** The tools that outline a card or a part of one: by a tap or by a box. */
const CARD_TOOLS = ['card', 'step', 'second'] as const satisfies Tool[];
type CardTool = (typeof CARD_TOOLS)[number];
export const ofCard = (held: Tool): held is CardTool => (CARD_TOOLS as readonly Tool[]).includes(held);

export async function tapPhoto(at: Point): Promise<void> {
  const hit = shapeAt(scene.value, at);
  const held = tool.value;
  // A card that is tapped again is outlined again.
  if (hit && hit !== held) return choose(hit);
  if (held === 'look') return select(null);
  await outline(held, (open, signal) =>
    ofCard(held)
      ? desk.outlineCard(open, at, { signal }).then((points) => void putCard(held, points))
      : desk.outlineRegion(open, at, held, { signal }).then((found) => void putRegion(held, found)),
  );
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

function choose(hit: ShapeKey): void {
  select(hit);
  say(words.status.selected(words.names.shape(scene.value, hit)));
}

async function outline(held: Tool, find: (open: NonNullable<typeof photo.value>, signal: AbortSignal) => Promise<void>): Promise<void> {
  const open = photo.value;
  if (!open) return;
  problem.value = null;
  try {
    await whileBusy(words.busy.outlining, (signal) => find(open, signal));
  } catch (error) {
    report(words.errors.outlineFailed(words.names.tool(held)), error, words.errors.outlineByHand);
  }
}

/** The colour of the card goes with it: it is the same one, or one of the same grey. */
function putSecond(outline: Point[]): ShapeKey {
  const { lab, reflectance } = scene.value.card ?? {};
  const known = { ...(lab && { lab }), ...(reflectance !== undefined && { reflectance }) };
  changeScene(words.edits.markSecond, (s) => withSecondCard(s, { ...known, ...s.second_card, outline }));
  tool.value = 'look';
  say(words.status.secondFound);
  return 'second';
}

function putCard(held: CardTool, outline: Point[]): ShapeKey {
  if (held === 'second') return putSecond(outline);
  const card = scene.value.card;
  if (held === 'step') {
    const steps = [...(card?.steps ?? []), { outline, lab: [50, 0, 0] as [number, number, number] }];
    changeScene(words.edits.addStep, (s) => withCard(s, { ...(card ?? { outline: [] }), steps }));
    say(words.status.stepFound(steps.length));
    const key = stepKey(steps.length - 1);
    select(key);
    return key;
  }
  changeScene(words.edits.markCard, (s) => withCard(s, { ...card, outline }));
  // The tabs come next; a card that is marked again was a correction.
  if (tool.value === 'card') tool.value = card ? 'look' : 'tab';
  say(words.status.cardFound);
  return 'card';
}

/** Stays unselected, so that several can be tapped in a row. */
function putRegion(kind: RegionKind, found: { outline: Point[]; cervical: Point; incisal: Point }): ShapeKey {
  const name = kind === 'tab' ? (chosenTabName.value ?? suggestedTabName(doc.value, guide.value)) : '';
  const next = added(scene.value, { kind, name, ...found });
  changeScene(words.edits.addRegion(words.names.kind[kind]), () => next.scene);
  chosenTabName.value = null;
  const key = regionKey(next.id);
  say(words.status.outlined(words.names.shape(next.scene, key)));
  return key;
}
