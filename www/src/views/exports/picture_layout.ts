/** Where things stand on the picture that is saved: the photo between two columns of numbers, what is said below. Pure. */
import type { Point } from '../../engine/types';

/** The numbers of one outline. */
export interface Block {
  readonly lines: readonly string[];
  /** The middle of the outline, in pixels of the picture of the photo. */
  readonly at: Point;
}

export interface PlacedBlock extends Block {
  readonly x: number;
  readonly y: number;
  /** From the block to its outline, in pixels of the whole picture. */
  readonly leader: readonly [Point, Point];
}

export interface Layout {
  readonly width: number;
  readonly height: number;
  /** Left upper corner of the photo. */
  readonly photo: Point;
  readonly blocks: readonly PlacedBlock[];
  readonly below: { readonly x: number; readonly y: number; readonly lines: readonly string[] };
  /** Size of the letters. */
  readonly letter: number;
  readonly line: number;
}

/** Breaks a text into lines that are not wider than they may be; a word that is too long stays whole. */
export function wrapped(text: string, width: number, wide: (text: string) => number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = lines.length ? `${lines.at(-1)} ${word}` : word;
    if (lines.length && wide(longer) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** Blocks one below the other, each as near to its outline's height as the others leave room for. */
function stacked(blocks: readonly Block[], line: number): { block: Block; y: number }[] {
  let free = 0;
  return [...blocks].sort((a, b) => a.at[1] - b.at[1]).map((block) => {
    const high = block.lines.length * line;
    const y = Math.max(free, block.at[1] - high / 2);
    free = y + high + 0.6 * line;
    return { block, y };
  });
}

/** `wide` measures a text of the letters' size 1. */
export function layoutOf(photo: { width: number; height: number }, blocks: readonly Block[], said: readonly string[], wide: (text: string) => number): Layout {
  const letter = Math.max(12, Math.round(photo.width / 85));
  const line = Math.round(1.35 * letter);
  const gap = letter;
  const sides = [0, 1].map((side) => blocks.filter((b) => Number(b.at[0] >= photo.width / 2) === side));
  const widths = sides.map((side) => (side.length ? Math.ceil(Math.max(...side.flatMap((b) => b.lines.map((l) => wide(l) * letter)))) + 2 * gap : 0));
  const stacks = sides.map((side) => stacked(side, line));
  const deepest = Math.max(photo.height, ...stacks.flat().map(({ block, y }) => y + block.lines.length * line));
  const width = photo.width + widths[0]! + widths[1]!;
  const placed = stacks.flatMap((stack, side) =>
    stack.map(({ block, y }): PlacedBlock => {
      const x = side ? widths[0]! + photo.width + gap : gap;
      const from: Point = [side ? x - gap / 2 : widths[0]! - gap / 2, gap + y + line / 2];
      return { ...block, x, y: gap + y, leader: [from, [widths[0]! + block.at[0], gap + block.at[1]]] };
    }));
  const lines = said.flatMap((text) => wrapped(text, width - 2 * gap, (t) => wide(t) * letter));
  const y = deepest + 2 * gap;
  return { width, height: Math.ceil(y + lines.length * line + gap), photo: [widths[0]!, gap], blocks: placed, below: { x: gap, y, lines }, letter, line };
}
