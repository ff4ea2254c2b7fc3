/** The steps found on the card, numbered, while their values can still be typed. */
import { doc, scene } from '../state/desk';
import { middleOf } from '../state/shapes';
import { selected, view } from '../state/ui';
import { pathOf, stageFromPhoto } from './geometry';

export function FoundStepOutlines() {
  const steps = doc.value.proposal.cardSteps;
  if (!steps || selected.value !== 'card' || scene.value.card?.steps?.length) return null;
  return (
    <>
      {steps.map((outline, i) => {
        const [x, y] = stageFromPhoto(view.value, middleOf(outline));
        return (
          <g key={i} class="outline proposed found-step">
            <path class="casing" d={pathOf(view.value, outline)} />
            <path class="line" d={pathOf(view.value, outline)} />
            <text x={x} y={y + 5}>
              {i + 1}
            </text>
          </g>
        );
      })}
    </>
  );
}
