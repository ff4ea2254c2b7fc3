/** An outline found for the card, a step of it, or the card at a second place, put into the scene. */
import type { Point } from '../engine/types';
import { words } from '../words';
import { changeScene, doc, scene } from './desk';
import { nextStep } from './flow';
import { withCard, withSecondCard } from './scene_edit';
import { stepKey, type ShapeKey } from './shapes';
import { say } from './status';
import { select, tool, type CardTool } from './ui';

/** The colour of the card goes with it: it is the same one, or one of the same grey. */
function putSecond(outline: Point[]): ShapeKey {
  const { lab, reflectance } = scene.value.card ?? {};
  const known = { ...(lab && { lab }), ...(reflectance !== undefined && { reflectance }) };
  changeScene(words.edits.markSecond, (s) => withSecondCard(s, { ...known, ...s.second_card, outline }));
  tool.value = 'look';
  say(words.status.secondFound);
  return 'second';
}

export function putCard(held: CardTool, outline: Point[]): ShapeKey {
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
  const next = nextStep(doc.value);
  // What is missing comes next; a card that is marked again was a correction.
  if (tool.value === 'card') tool.value = card || next === 'reading' ? 'look' : next === 'teeth' ? 'tooth' : 'tab';
  say(next === 'tabs' ? words.status.cardFound : words.status.outlined(words.names.shape(scene.value, 'card')));
  return 'card';
}
