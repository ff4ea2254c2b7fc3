/** Where names stand so that none covers another: from the left, farther off where there is no room. */

interface Named {
  text: string;
  /** Middle of the text, and its baseline, in stage pixels. */
  x: number;
  y: number;
  /** Where farther off is: upwards, else downwards. */
  up: boolean;
}

const CHARACTER_PX = 8.6;
const LINE_PX = 17;

const overlap = (a: Named, b: Named): boolean =>
  Math.abs(a.y - b.y) < LINE_PX && Math.abs(a.x - b.x) < ((a.text.length + b.text.length) * CHARACTER_PX) / 2 + 4;

export function clearOfEachOther<T extends Named>(names: readonly T[]): T[] {
  const placed: T[] = [];
  for (const name of [...names].sort((a, b) => a.x - b.x)) {
    let { y } = name;
    while (placed.some((p) => overlap(p, { ...name, y }))) y += name.up ? -LINE_PX : LINE_PX;
    placed.push({ ...name, y });
  }
  return placed;
}
