/** Coats to paint as a bar by length. Stains are told apart by their pattern and named beside it, never by colour. */
import type { CoatBar, CoatsLayout } from './coats_layout';

export const BAR_PX = 26;
/** Room for the scale. */
const SCALE_PX = 8;
const PATTERNS = ['plain', 'slanted', 'dotted', 'upright', 'crossed'] as const;
const patternOf = (n: number): string => PATTERNS[n % PATTERNS.length]!;

/** One definition each, referred to by every bar of the page. */
export function CoatPatterns() {
  const dots = [2, 6].map((y) => <circle key={y} cx={y} cy={y} r={1.2} />);
  return (
    <svg class="coat-patterns unseen" aria-hidden="true" width={0} height={0}>
      <defs>
        {PATTERNS.map((name) => (
          <pattern key={name} id={`coat-${name}`} class={`coat-pattern ${name}`} width={8} height={8} patternUnits="userSpaceOnUse">
            <rect width={8} height={8} />
            {name === 'slanted' && <path d="M-2 2L2 -2M0 8L8 0M6 10L10 6" />}
            {name === 'upright' && <path d="M4 0V8" />}
            {name === 'crossed' && <path d="M0 4H8M4 0V8" />}
            {name === 'dotted' && dots}
          </pattern>
        ))}
      </defs>
    </svg>
  );
}

export function PatternSample({ pattern }: { pattern: number }) {
  return (
    <svg class="pattern-sample" width={18} height={14} aria-hidden="true">
      <rect x={0.5} y={0.5} width={17} height={13} fill={`url(#coat-${patternOf(pattern)})`} />
    </svg>
  );
}

interface CoatsBarProps {
  bar: CoatBar;
  layout: CoatsLayout;
  width: number;
  label: string;
}

export function CoatsBar({ bar, layout: { ticks, end }, width, label }: CoatsBarProps) {
  return (
    <span class="coats-drawn">
      <svg class="coats-bar" role="img" aria-label={label} width={width} height={BAR_PX + SCALE_PX} viewBox={`0 0 ${width} ${BAR_PX + SCALE_PX}`} data-coats={bar.paint.coats}>
        <path class="scale" d={`M0 ${BAR_PX + 4}H${end}${ticks.map((t) => `M${t.x + 0.5} ${BAR_PX + 1}v7`).join('')}`} />
        {bar.strips.map((s) => (
          <rect key={s.stain} x={0.5} y={s.from * BAR_PX} width={Math.max(bar.width - 1, 0)} height={(s.to - s.from) * BAR_PX} fill={`url(#coat-${patternOf(s.pattern)})`} />
        ))}
        {bar.cuts.map((x) => (
          <path key={x} class="cut" d={`M${x} -1V${BAR_PX + 1}`} />
        ))}
      </svg>
      <span class="scale-numbers" aria-hidden="true">{ticks.map((t) => <span key={t.coats} style={{ left: `${(100 * t.x) / Math.max(width, 1)}%` }}>{t.coats}</span>)}</span>
    </span>
  );
}
