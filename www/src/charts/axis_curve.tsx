/** A curve column of the axis sheet: value or chroma from the cervical end (top) to the incisal end. */
import { curveLayout } from './curve_layout';
import { STROKES, type Quantity, type Series } from './series';

export interface AxisCurveProps {
  series: readonly Series[];
  quantity: Quantity;
  width: number;
  height: number;
  label: string;
}

export function AxisCurve({ series, quantity, width, height, label }: AxisCurveProps) {
  const { bands, paths, labels, ticks } = curveLayout(series, quantity, width, height);
  return (
    <svg class="axis-curve" role="img" aria-label={label} width={width} height={height} viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="none">
      {ticks.map((t) => (
        <g key={t.text} class="tick">
          <path d={`M${t.x} 0V${height}`} />
          <text x={t.x} y={height - 4}>
            {t.text}
          </text>
        </g>
      ))}
      {bands.map((b) => (
        <path key={b.id} class={`band ${b.role}`} d={b.d} />
      ))}
      {paths.map((p) => (
        <path
          key={p.id}
          class={`curve ${p.role}`}
          d={p.d}
          fill="none"
          stroke-width={STROKES[p.role].width}
          stroke-dasharray={STROKES[p.role].dash}
          stroke-linecap="round"
        />
      ))}
      {labels.map((l) => (
        <text key={l.key} class={`mean ${l.role}`} x={l.x} y={l.y} text-anchor={l.anchor} dominant-baseline="central">
          {l.text}
        </text>
      ))}
    </svg>
  );
}

/** The stroke of a role, as a sample beside a name. */
export function StrokeSample({ role }: { role: Series['role'] }) {
  const { dash, width } = STROKES[role];
  return (
    <svg class="stroke-sample" width={34} height={8} aria-hidden="true">
      <path d="M3 4H31" fill="none" stroke="currentColor" stroke-width={width} stroke-dasharray={dash} stroke-linecap="round" />
    </svg>
  );
}
