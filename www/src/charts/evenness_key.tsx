/** The key of the map of unevenness: darker on the left, clear in the middle, lighter on the right. */
import { scaleLinear } from 'd3-scale';
import { fixed } from './format';
import { FULL_DELTA_E_00 } from './evenness_scale';
import { PERCEPTIBILITY_DELTA_E_00 } from './ladder_layout';

const HEIGHT_PX = 44;
const BAR_PX = 16;
/** As much of the photo still comes through a full map. */
const FULL_OPACITY = 0.78;

export interface EvennessKeyProps {
  width: number;
  label: string;
  darker: string;
  lighter: string;
  none: string;
  unit: string;
}

export function EvennessKey({ width, label, darker, lighter, none, unit }: EvennessKeyProps) {
  const x = scaleLinear([-FULL_DELTA_E_00, FULL_DELTA_E_00], [6, width - 6]);
  const ticks = [-FULL_DELTA_E_00, -PERCEPTIBILITY_DELTA_E_00, PERCEPTIBILITY_DELTA_E_00, FULL_DELTA_E_00];
  const anchor = (v: number) => (v === -FULL_DELTA_E_00 ? 'start' : v === FULL_DELTA_E_00 ? 'end' : 'middle');
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
      <text x={width / 2} y={18 + BAR_PX + 19} text-anchor="middle">
        {unit}
      </text>
      {ticks.map((v) => (
        <g key={v}>
          <path class="tick" d={`M${x(v)} ${18 + BAR_PX}v5`} />
          <text x={x(v)} y={18 + BAR_PX + 19} text-anchor={anchor(v)}>
            {fixed(Math.abs(v))}
          </text>
        </g>
      ))}
    </svg>
  );
}
