/** The key of a map over the photo: darker on the left, clear in the middle, lighter on the right. */
import { fixed } from './format';
import { PERCEPTIBILITY_DELTA_E_00 } from './ladder_layout';
import { linear } from './linear';

const HEIGHT_PX = 44;
const BAR_PX = 16;
const UNIT_PX = 72;
/** As much of the photo still comes through a full map. */
const FULL_OPACITY = 0.78;

export interface EvennessKeyProps {
  width: number;
  /** The difference at which the map is full, ΔE00. */
  full: number;
  label: string;
  darker: string;
  lighter: string;
  none: string;
  unit: string;
}

export function EvennessKey({ width, full, label, darker, lighter, none, unit }: EvennessKeyProps) {
  const x = linear([-full, full], [6, width - 6]);
  const ticks = [-full, -PERCEPTIBILITY_DELTA_E_00, PERCEPTIBILITY_DELTA_E_00, full];
  // Its own place in the middle where the thresholds leave one.
  const middle = x(PERCEPTIBILITY_DELTA_E_00) - x(-PERCEPTIBILITY_DELTA_E_00) > UNIT_PX;
  const anchor = (v: number) => (v === -full ? 'start' : v === full ? 'end' : 'middle');
  return (
    <svg class="evenness-key" role="img" aria-label={label} width={width} height={HEIGHT_PX + 16} viewBox={`0 0 ${width} ${HEIGHT_PX + 16}`}>
      <defs>
        <linearGradient id="evenness-shade">
          <stop offset="0" stop-color="#000" stop-opacity={FULL_OPACITY} />
          <stop offset="0.5" stop-color="#000" stop-opacity="0" />
          <stop offset="0.5" stop-color="#fff" stop-opacity="0" />
          <stop offset="1" stop-color="#fff" stop-opacity={FULL_OPACITY} />
        </linearGradient>
      </defs>
      <text x={6} y={12}>
        {darker}
      </text>
      <text x={width / 2} y={12} text-anchor="middle">
        {none}
      </text>
      <text x={width - 6} y={12} text-anchor="end">
        {lighter}
      </text>
      <g class="bar">
        <rect class="ground" x={6} y={18} width={width - 12} height={BAR_PX} />
        <rect x={6} y={18} width={width - 12} height={BAR_PX} fill="url(#evenness-shade)" />
      </g>
      {middle && (
        <text x={width / 2} y={18 + BAR_PX + 19} text-anchor="middle">
          {unit}
        </text>
      )}
      {ticks.map((v) => (
        <g key={v}>
          <path class="tick" d={`M${x(v)} ${18 + BAR_PX}v5`} />
          <text x={x(v)} y={18 + BAR_PX + 19} text-anchor={anchor(v)}>
            {fixed(Math.abs(v))}
            {!middle && v === full && ` ${unit}`}
          </text>
        </g>
      ))}
    </svg>
  );
}
