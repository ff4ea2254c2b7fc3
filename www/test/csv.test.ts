import { describe, expect, it } from 'vitest';
import { csvOf, csvOfPhotos } from '../src/charts/csv';
import { fixed, grouped, percent } from '../src/charts/format';
import type { Scene } from '../src/engine/types';
import { Engine } from './fake_engine';
import { square } from './squares';

const SCENE: Scene = {
  card: { outline: square(0, 0) },
  regions: [
    { id: 't', kind: 'tooth', name: '=1+1', outline: square(100, 100) },
    { id: 'a', kind: 'tab', name: 'A2, "old"', outline: square(300, 100) },
  ],
};

function report() {
  const engine = new Engine();
  const { id } = engine.open(new Uint8Array([0xff]));
  return engine.read(id, SCENE, {});
}

describe('the numbers as CSV', () => {
  const lines = csvOf(report(), SCENE, () => false).split('\r\n');

  it('have a head, a row per zone, and as many cells in each', () => {
    expect(lines).toHaveLength(1 + 2 * 4 + 1);
    expect(lines[0]).toMatch(/^outline,kind,name,zone,L\*,a\*,b\*,C\*,h_deg,/);
    const cells = (line: string) => line.replace(/"([^"]|"")*"/g, 'quoted').split(',').length;
    for (const line of lines.slice(1, -1)) expect(cells(line)).toBe(cells(lines[0]!));
    expect(lines[1]).toMatch(/^t,tooth,'=1\+1,cervical,67\.05,/);
  });

  it('are quoted where they must be, and run no formula', () => {
    expect(lines[5]).toContain('a,tab,"A2, ""old""",cervical,');
    expect(lines.join('\n')).not.toMatch(/(^|,)=/m);
  });

  it('have the names that the screen has, beside the ids', () => {
    const nameless: Scene = { ...SCENE, regions: [...SCENE.regions.map((r) => ({ ...r, name: '' })), { id: 'tooth-2', kind: 'tooth', name: '', outline: square(200, 100) }] };
    const engine = new Engine();
    const made = engine.read(engine.open(new Uint8Array([0xff])).id, nameless, {});
    made.ladders = [{ region: 't', zone: 'middle', tabs: [{ name: 'a', delta_e_00: 1, basis: 'in_photo' }] }] as unknown as typeof made.ladders;
    const named = (rows: string[], at: number) => [...new Set(rows.map((l) => l.split(',').slice(at, at + 3).join()))];
    const rows = csvOf(made, nameless, () => false).split('\r\n').slice(1, -1);
    expect(named(rows, 0)).toEqual(['t,tooth,Tooth a', 'a,tab,Tab', 'tooth-2,tooth,Tooth b']);
    expect([...new Set(rows.map((l) => l.split(',').at(-3)))].sort()).toEqual(['', 'Tab']);
    const [blank] = csvOfPhotos([{ photo: 'a.jpg', scene: nameless, report: made, untrusted: (r) => (r === 'tooth-2' ? 'Dark.' : undefined) }]).split('\r\n').filter((l) => l.includes('Dark.'));
    expect(blank).toMatch(/^a\.jpg,tooth-2,tooth,Tooth b,/);
  });

  it('leave out what is not to be trusted', () => {
    const rest = csvOf(report(), SCENE, (region) => region === 't');
    expect(rest).not.toMatch(/^t,/m);
    expect(rest).toMatch(/^a,/m);
  });
});

describe('the numbers of many photos as one CSV', () => {
  const sound = () => undefined;
  const photos = [
    { photo: 'a.jpg', scene: SCENE, report: report(), untrusted: sound },
    { photo: 'b, c.jpg', scene: SCENE, report: report(), untrusted: (region?: string) => (region === undefined ? 'Lights of different colour meet.' : undefined) },
    { photo: '=d.jpg', scene: SCENE, report: report(), untrusted: (region?: string) => (region === 't' ? 'Too dark.' : undefined) },
    { photo: 'e.jpg', scene: SCENE, report: 'not read yet', untrusted: sound },
  ];
  const lines = csvOfPhotos(photos).split('\r\n').slice(0, -1);
  const cells = (line: string) => line.replace(/"([^"]|"")*"/g, 'quoted').split(',');

  it('has the photo before the numbers, and as many cells in each row', () => {
    expect(lines[0]).toMatch(/^photo,outline,kind,name,zone,L\*,.*,nearest_basis,no_numbers_because$/);
    for (const line of lines) expect(cells(line)).toHaveLength(cells(lines[0]!).length);
    expect(lines.filter((l) => l.startsWith('a.jpg,'))).toHaveLength(2 * 4);
    // The same numbers as in the photo's own table.
    expect(lines[1]).toBe(`a.jpg,${csvOf(report(), SCENE, () => false).split('\r\n')[1]},`);
    expect(lines.join('\n')).not.toMatch(/(^|,)=/m);
  });

  it('gives a reason where there must be no numbers', () => {
    expect(lines.filter((l) => l.startsWith('"b, c.jpg"'))).toEqual([`"b, c.jpg"${','.repeat(21)}Lights of different colour meet.`]);
    expect(lines.filter((l) => l.startsWith("'=d.jpg,t"))).toEqual([`'=d.jpg,t,tooth,'=1+1${','.repeat(18)}Too dark.`]);
    expect(lines.filter((l) => l.startsWith("'=d.jpg,a"))).toHaveLength(4);
    expect(lines.at(-1)).toBe(`e.jpg${','.repeat(21)}not read yet`);
  });
});

describe('numbers for people', () => {
  it('have fixed digits, a true minus and no negative nought', () => {
    expect([fixed(1.25), fixed(-1.26), fixed(-0.04), fixed(86.4, 0)]).toEqual(['1.3', '−1.3', '0.0', '86']);
    expect([percent(0), percent(0.001), percent(0.124)]).toEqual(['0 %', '<1 %', '12 %']);
    expect([grouped(999), grouped(1234567)]).toEqual(['999', '1\u202f234\u202f567']);
  });
});
