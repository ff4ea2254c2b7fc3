import { describe, expect, it } from 'vitest';
import { clearOfEachOther, insideStage } from '../src/stage/name_places';

const STAGE = { width: 400, height: 300 };
const name = (x: number, y: number, up = true) => ({ text: 'Tooth e', x, y, up });

describe('a name on the stage', () => {
  it('is moved in when the edge would cut it', () => {
    expect(insideStage(name(200, 5), STAGE)).toMatchObject({ x: 200, y: 14 });
    expect(insideStage(name(200, 304, false), STAGE)).toMatchObject({ x: 200, y: 296 });
    expect(insideStage(name(3, 100), STAGE).x).toBeGreaterThan(25);
    expect(insideStage(name(398, 100), STAGE).x).toBeLessThan(375);
  });

  it('stays where it is inside, and out of sight', () => {
    for (const n of [name(200, 150), name(200, -60), name(200, 900), name(-500, 100), name(900, 100)]) expect(insideStage(n, STAGE)).toEqual(n);
  });

  it('gives way to another one', () => {
    const [a, b] = clearOfEachOther([name(100, 100), name(120, 104)]);
    expect(a!.y).toBe(100);
    expect(b!.y).toBeLessThanOrEqual(100 - 13);
  });
});
