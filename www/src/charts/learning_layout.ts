/** Where the attempts of a learning curve lie: the newest on the right, 0 at the bottom. Pure. */
import { line } from 'd3-shape';
import { ACCEPTABILITY_DELTA_E_00, PERCEPTIBILITY_DELTA_E_00 } from './ladder_layout';
import { linear } from './linear';

/** One label's attempts, the oldest first: ΔE00 left. */
export interface Learner {
  name: string;
  left: readonly number[];
}

interface Name {
  name: string;
  /** As much of the name as has room. */
  text: string;
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
const MARGIN = { left: 34, top: 26, bottom: 34 };
/** What a name takes at most, as a rule: its letters are bold and 13 px, and a short one may be all wide ones. */
const LETTER_PX = 8.5;
const WIDE_PX = 12;
/** The last dot lies before a name. */
const NAME_GAP_PX = 11;
/** Names at the end take no more of the width than this; the rest is cut. */
const NAME_SHARE = 0.35;
const NAME_ROW_PX = 17;
/** The words of a threshold stand over its line. */
const WORD_ABOVE_PX = 8;
/** A lower end would blow small differences up. */
const LEAST_END = 3;

export function learningLayout(learners: readonly Learner[], width: number, height: number): LearningLayout {
  const longest = Math.max(2, ...learners.map((l) => l.left.length));
  const room = Math.max(...learners.filter((l) => l.left.length === longest).map((l) => widthOf(l.name)), 0);
  const right = NAME_GAP_PX + Math.min(room, width * NAME_SHARE);
  const fits = (width - MARGIN.left - 8 - right) / 2;
  const most = Math.max(LEAST_END, ...learners.flatMap((l) => l.left));
  const x = linear([1, longest], [MARGIN.left + 8, width - right]);
  const y = linear([0, most * 1.05], [height - MARGIN.bottom, MARGIN.top]);
  const draw = line<{ x: number; y: number }>((p) => p.x, (p) => p.y);
  const lines = learners.map(({ name, left }, i) => {
    const dots = left.map((value, n) => ({ x: x(n + 1), y: y(value) }));
    return { name, dots, dash: DASHES[i % DASHES.length], d: draw(dots) ?? '' };
  });
  const ends = lines.flatMap(({ name, dots }): Name[] => {
    const last = dots.at(-1);
    if (!last) return [];
    if (dots.length === longest) return [{ name, text: cut(name, right - NAME_GAP_PX), x: last.x + NAME_GAP_PX, y: last.y, anchor: 'start' }];
    const text = cut(name, 2 * fits);
    const half = widthOf(text) / 2;
    return [{ name, text, x: Math.max(MARGIN.left + half, Math.min(last.x, width - half)), y: last.y - 15, anchor: 'middle' }];
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

const widthOf = (text: string): number => [...text].length * LETTER_PX + WIDE_PX;

function cut(name: string, room: number): string {
  const letters = [...name];
  const most = Math.max(2, Math.floor((room - WIDE_PX) / LETTER_PX + 1e-6));
  return letters.length <= most ? name : `${letters.slice(0, most - 1).join('').trimEnd()}…`;
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
