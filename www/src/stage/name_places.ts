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

/** From its baseline a line of text reaches so far up and down. */
const [ABOVE_PX, BELOW_PX] = [14, 4];

/** A name that the stage's edge would cut is moved in; what is out of sight stays there. */
export function insideStage<T extends Named>(name: T, { width, height }: { width: number; height: number }): T {
  const half = (name.text.length * CHARACTER_PX) / 2;
  const inSight = name.y > -LINE_PX && name.y < height + LINE_PX && name.x > -half && name.x < width + half;
  const within = (v: number, low: number, high: number) => Math.max(low, Math.min(v, high));
  return inSight ? { ...name, x: within(name.x, half, width - half), y: within(name.y, ABOVE_PX, height - BELOW_PX) } : name;
}

/** Away from its outline until it is just clear of those before it; the other way where the stage ends first. */
function clearPlace(name: Named, placed: readonly Named[], inSight: (y: number) => boolean): number {
  const clear = (away: number) =>
    [...placed].sort((a, b) => (a.y - b.y) * away).reduce((y, p) => (overlap(p, { ...name, y }) ? p.y + away : y), name.y);
  const away = name.up ? -LINE_PX : LINE_PX;
  const y = clear(away);
  if (inSight(y) || !inSight(name.y)) return y;
  const back = clear(-away);
  return inSight(back) ? back : y;
}

export function clearOfEachOther<T extends Named>(names: readonly T[], height: number): T[] {
  const inSight = (y: number) => y >= ABOVE_PX && y <= height - BELOW_PX;
  const placed: T[] = [];
  for (const name of [...names].sort((a, b) => a.x - b.x)) placed.push({ ...name, y: clearPlace(name, placed, inSight) });
  return placed;
}
