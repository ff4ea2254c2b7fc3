/** Where the attempts of a learning curve lie: the newest on the right, 0 at the bottom. Pure. */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { ACCEPTABILITY_DELTA_E_00, PERCEPTIBILITY_DELTA_E_00 } from './ladder_layout';

/** One label's attempts, the oldest first: ΔE00 left. */
export interface Learner {
  name: string;
  left: readonly number[];
}

interface Name {
  name: string;
  x: number;
  y: number;
  /** Beside the last dot, or over it where the others go on. */
  anchor: 'start' | 'middle';
}

export interface LearningLayout {
  lines: { name: string; d: string; dash: string | undefined; dots: { x: number; y: number }[] }[];
  names: Name[];
  ticks: { x: number; text: string }[];
  levels: { y: number; value: number }[];
  bottom: number;
}

/** Told apart by stroke and by the name at the end, never by colour. */
const DASHES = [undefined, '8 4', '2 4', '12 3 2 3'];
const MARGIN = { left: 34, right: 96, top: 26, bottom: 34 };
const NAME_ROW_PX = 17;
/** The words of a threshold stand over its line. */
const WORD_ABOVE_PX = 8;
/** A lower end would blow small differences up. */
const LEAST_END = 3;

export function learningLayout(learners: readonly Learner[], width: number, height: number): LearningLayout {
  const longest = Math.max(2, ...learners.map((l) => l.left.length));
  const most = Math.max(LEAST_END, ...learners.flatMap((l) => l.left));
  const x = scaleLinear([1, longest], [MARGIN.left + 8, width - MARGIN.right]);
  const y = scaleLinear([0, most * 1.05], [height - MARGIN.bottom, MARGIN.top]);
  const draw = line<{ x: number; y: number }>((p) => p.x, (p) => p.y);
  const lines = learners.map(({ name, left }, i) => {
    const dots = left.map((value, n) => ({ x: x(n + 1), y: y(value) }));
    return { name, dots, dash: DASHES[i % DASHES.length], d: draw(dots) ?? '' };
  });
  const ends = lines.flatMap(({ name, dots }): Name[] => {
    const last = dots.at(-1);
    if (!last) return [];
    return dots.length === longest ? [{ name, x: last.x + 11, y: last.y, anchor: 'start' }] : [{ name, x: last.x, y: last.y - 15, anchor: 'middle' }];
  });
  const levels = [PERCEPTIBILITY_DELTA_E_00, ACCEPTABILITY_DELTA_E_00].map((value) => ({ value, y: y(value) }));
  const step = Math.ceil(longest / 8);
  const ticks = Array.from({ length: longest }, (_, i) => i + 1).filter((n) => (n - 1) % step === 0);
  return {
    lines,
    names: [...new Set(ends.map((n) => n.x))].flatMap((at) => {
      const there = ends.filter((n) => n.x === at);
      return clear(there, there[0]!.anchor === 'start' ? levels.map((l) => l.y - WORD_ABOVE_PX) : []);
    }),
    ticks: ticks.map((n) => ({ x: x(n), text: String(n) })),
    levels,
    bottom: height - MARGIN.bottom,
  };
}

/** Names that would lie on each other, or on the words of a threshold, are moved down. */
function clear(names: Name[], words: readonly number[]): Name[] {
  let last = -Infinity;
  return [...names]
    .sort((a, b) => a.y - b.y)
    .map((n) => {
      let y = Math.max(n.y, last + NAME_ROW_PX);
      for (const word of words) if (Math.abs(y - word) < NAME_ROW_PX) y = word + NAME_ROW_PX;
      last = y;
      return { ...n, y };
    });
}
