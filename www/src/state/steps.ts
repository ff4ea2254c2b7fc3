/** Taking a step in hand: which tool it means, and placing by numbers instead of a tap. */
import { photoFromStage } from '../stage/geometry';
import type { StepName } from './flow';
import { putByNumbers } from './tap';
import { adjusting, ofCard, select, selected, side, stageSize, tool, view, type Tool } from './ui';

const TOOL_OF: Record<Exclude<StepName, 'photo'>, Tool> = { card: 'card', tabs: 'tab', teeth: 'tooth' };

export const isCurrent = (step: StepName, held: Tool): boolean =>
  (step === 'card' && ofCard(held)) ||
  (step === 'tabs' && held === 'tab') ||
  (step === 'teeth' && (held === 'tooth' || held === 'restoration'));

export function hold(next: Tool): void {
  tool.value = next;
  select(null);
  adjusting.value = false;
  side.value = next === 'look' ? side.value : 'photo';
}

/** A step's button takes its tool in hand, and lays it down again. */
export function holdStep(step: Exclude<StepName, 'photo'>): void {
  hold(isCurrent(step, tool.value) ? 'look' : TOOL_OF[step]);
}

/** A rectangle in the middle of what is seen; true when one was placed. */
export function placeByNumbers(): boolean {
  const { width, height } = stageSize.value;
  const { k } = view.value;
  const [x, y] = photoFromStage(view.value, [width * 0.4, height * 0.35]);
  putByNumbers(tool.value, { x, y, width: (width * 0.2) / k, height: (height * 0.3) / k });
  return selected.value !== null;
}
