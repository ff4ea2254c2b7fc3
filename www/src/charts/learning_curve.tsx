/** ΔE00 left, attempt after attempt, one line per label, with the two thresholds. */
import { fixed } from './format';
import { learningLayout, type Learner } from './learning_layout';

export interface LearningCurveProps {
  learners: readonly Learner[];
  width: number;
  height: number;
  label: string;
  /** Words at the two thresholds, the lower one first, and under the axis. */
  levels: readonly [string, string];
  attempt: string;
  unit: string;
}

export function LearningCurve({ learners, width, height, label, levels, attempt, unit }: LearningCurveProps) {
  const l = learningLayout(learners, width, height);
  return (
    <svg class="learning-curve" role="img" aria-label={label} width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
      <text x={34} y={11}>
        {unit}
      </text>
      <path class="line" d={`M34 ${l.bottom}H${width}`} />
      {l.levels.map(({ y, value }, i) => (
        <g key={value}>
          <path class="threshold" d={`M34 ${y}H${width}`} />
          <text x={30} y={y + 4} text-anchor="end">
            {fixed(value)}
          </text>
          <text x={width} y={y - 4} text-anchor="end">
            {levels[i]}
          </text>
        </g>
      ))}
      <text x={30} y={l.bottom + 4} text-anchor="end">
        {fixed(0, 0)}
      </text>
      {l.ticks.map(({ x, text }) => (
        <text key={text} x={x} y={l.bottom + 16} text-anchor="middle">
          {text}
        </text>
      ))}
      <text x={34} y={height - 3}>
        {attempt}
      </text>
      {l.lines.map(({ name, d, dash, dots }) => (
        <g key={name} class="learner">
          <path class="curve" d={d} fill="none" stroke-width={2} stroke-dasharray={dash} />
          {dots.map(({ x, y }, i) => (
            <circle key={i} cx={x} cy={y} r={i === dots.length - 1 ? 6 : 4} />
          ))}
        </g>
      ))}
      {l.names.map(({ name, text, x, y, anchor }) => (
        <text key={name} class="name" x={x} y={y + 4} text-anchor={anchor}>
          {text !== name && <title>{name}</title>}
          {text}
        </text>
      ))}
    </svg>
  );
}
