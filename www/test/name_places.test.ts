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
    const [a, b] = clearOfEachOther([name(100, 100), name(120, 104)], STAGE.height);
    expect(a!.y).toBe(100);
    expect(b!.y).toBe(104 - 21);
  });

  it.each([0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((i) => 0.1 * i + 1e-3 * i * i))('gives way to many at broken heights (%d)', (part) => {
    const placed = clearOfEachOther(Array.from({ length: 9 }, (_, i) => name(100 + i, 150 + part * i)), STAGE.height);
    for (const a of placed) for (const b of placed) if (a !== b) expect(Math.abs(a.y - b.y)).toBeGreaterThan(16);
  });

  it('gives way to what it meets on the way, whichever came first', () => {
    expect(clearOfEachOther([name(100, 83), name(110, 100), name(120, 104)], STAGE.height)[2]!.y).toBe(66);
    expect(clearOfEachOther([name(100, 117, false), name(110, 100, false), name(120, 96, false)], STAGE.height)[2]!.y).toBe(134);
  });

  it('gives way to where it can be read', () => {
    const [a, b, c] = clearOfEachOther([name(100, 14), name(120, 14), name(140, 20)], STAGE.height);
    expect([a!.y, b!.y, c!.y]).toEqual([14, 31, 48]);
    const [d, e] = clearOfEachOther([name(100, 290, false), name(120, 290, false)], STAGE.height);
    expect([d!.y, e!.y]).toEqual([290, 273]);
  });

  it('gives way as before where nothing is seen, or nowhere is room', () => {
    const [, out] = clearOfEachOther([name(100, -20), name(120, -20)], STAGE.height);
    expect(out!.y).toBe(-37);
    const [, low] = clearOfEachOther([name(100, 15), name(120, 15)], 30);
    expect(low!.y).toBe(-2);
  });
});
