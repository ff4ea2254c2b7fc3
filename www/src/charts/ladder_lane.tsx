/** One zone's tabs on a line of ΔE00: left is near. Filled marks were read in this photo. */
import type { Rung } from '../engine/types';
import { fixed } from './format';
import { ACCEPTABILITY_DELTA_E_00, ladderMarks, ladderScale, PERCEPTIBILITY_DELTA_E_00 } from './ladder_layout';

const ROW_PX = 17;
export const LANE_HEIGHT_PX = 76;
const LINE_Y = 62;

export interface LadderLaneProps {
  tabs: readonly Rung[];
  end: number;
  width: number;
  label: string;
}

export function LadderLane({ tabs, end, width, label }: LadderLaneProps) {
  const x = ladderScale(end, width);
  return (
    <svg class="ladder-lane" role="img" aria-label={label} width={width} height={LANE_HEIGHT_PX} viewBox={`0 0 ${width} ${LANE_HEIGHT_PX}`}>
      <path class="line" d={`M${x(0)} ${LINE_Y}H${width}`} />
      <path class="threshold" d={`M${x(PERCEPTIBILITY_DELTA_E_00)} 0V${LANE_HEIGHT_PX}M${x(ACCEPTABILITY_DELTA_E_00)} 0V${LANE_HEIGHT_PX}`} />
      {ladderMarks(tabs, end, width).map((m) => (
        <g key={m.name} class={m.inPhoto ? 'mark in-photo' : 'mark'}>
          {m.row !== null && <path class="stem" d={`M${m.x} ${LINE_Y}V${LINE_Y - 10 - m.row * ROW_PX}`} />}
          <circle cx={m.x} cy={LINE_Y} r={m.inPhoto ? 6 : 4} />
          {m.row !== null && (
            <text class={m.nearest ? 'nearest' : undefined} x={m.x} y={LINE_Y - 13 - m.row * ROW_PX} text-anchor="middle">
              {m.name}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}

/** The scale over all lanes: numbers, and the two thresholds in words. */
export function LadderAxis({ end, width, seen, accept }: { end: number; width: number; seen: string; accept: string }) {
  const x = ladderScale(end, width);
  const whole = Array.from({ length: Math.floor(end) + 1 }, (_, i) => i);
  const step = Math.ceil(whole.length / 7);
  return (
    <svg class="ladder-axis" aria-hidden="true" width={width} height={58} viewBox={`0 0 ${width} 58`}>
      {whole
        .filter((v) => v % step === 0)
        .map((v) => (
          <text key={v} class="number" x={x(v)} y={54} text-anchor="middle">
            {v}
          </text>
        ))}
      <path class="threshold" d={`M${x(PERCEPTIBILITY_DELTA_E_00)} 34V58M${x(ACCEPTABILITY_DELTA_E_00)} 18V58`} />
      <text x={x(PERCEPTIBILITY_DELTA_E_00) - 4} y={30}>
        {fixed(PERCEPTIBILITY_DELTA_E_00)} {seen}
      </text>
      <text x={x(ACCEPTABILITY_DELTA_E_00) - 4} y={13}>
        {fixed(ACCEPTABILITY_DELTA_E_00)} {accept}
      </text>
    </svg>
  );
}
