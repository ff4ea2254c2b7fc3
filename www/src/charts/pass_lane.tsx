/** One third's way to the target on a line of ΔE00: where it was, and what came out with its doubt. */
import { ACCEPTABILITY_DELTA_E_00, ladderScale, PERCEPTIBILITY_DELTA_E_00 } from './ladder_layout';

export const PASS_LANE_PX = 40;
const LINE_Y = 18;
const DOUBT_Y = 31;

export interface PassLaneProps {
  before: number;
  left: number;
  /** ± on what is left. */
  doubt: number;
  end: number;
  width: number;
  label: string;
}

/** One end for all lanes, so that they can be compared down the page. */
export const passEnd = (values: readonly number[]): number => Math.max(3, Math.ceil(Math.max(0, ...values) + 0.2));

export function PassLane({ before, left, doubt, end, width, label }: PassLaneProps) {
  const x = ladderScale(end, width);
  const at = (v: number) => x(Math.min(Math.max(v, 0), end));
  return (
    <svg class="pass-lane" role="img" aria-label={label} width={width} height={PASS_LANE_PX} viewBox={`0 0 ${width} ${PASS_LANE_PX}`}>
      <path class="line" d={`M${x(0)} ${LINE_Y}H${width}`} />
      <path class="threshold" d={`M${x(PERCEPTIBILITY_DELTA_E_00)} 0V${PASS_LANE_PX}M${x(ACCEPTABILITY_DELTA_E_00)} 0V${PASS_LANE_PX}`} />
      <path class="way" d={`M${at(before)} ${LINE_Y}H${at(left)}`} />
      <path class="doubt" d={`M${at(left - doubt)} ${DOUBT_Y - 3}v6m0 -3H${at(left + doubt)}m0 -3v6`} />
      <circle class="before" cx={at(before)} cy={LINE_Y} r={6} />
      <circle class="left" cx={at(left)} cy={LINE_Y} r={7} />
    </svg>
  );
}
