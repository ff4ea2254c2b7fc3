import { describe, expect, it } from 'vitest';
import { csvOf, type PhotoNumbers } from '../src/charts/csv';
import { fixed, grouped, percent } from '../src/charts/format';
import type { LightCheck, Report, Scene } from '../src/engine/types';
import { Engine } from './fake_engine';
import { square } from './squares';

const SCENE: Scene = {
  card: { outline: square(0, 0) },
  regions: [
    { id: 't', kind: 'tooth', name: '=1+1', outline: square(100, 100) },
    { id: 'a', kind: 'tab', name: 'A2, "old"', outline: square(300, 100) },
  ],
};

function report(scene = SCENE): Report {
  const engine = new Engine();
  const { id } = engine.open(new Uint8Array([0xff]));
  return engine.read(id, scene, {});
}

const sound = () => undefined;
const photo = (more: Partial<PhotoNumbers> = {}): PhotoNumbers => ({ photo: 'a.jpg', scene: SCENE, report: report(), untrusted: sound, guide: 'My tabs', ...more });

/** RFC 4180, as another program would read it. */
function parsed(text: string): Record<string, string>[] {
  const rows: string[][] = [[]];
  let [cell, quoted] = ['', false];
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!;
    if (quoted && c === '"' && text[i + 1] === '"') cell += text[++i];
    else if (c === '"') quoted = !quoted;
    else if (!quoted && (c === ',' || c === '\r')) {
      rows.at(-1)!.push(cell);
      cell = '';
      if (c === '\r') (i++, rows.push([]));
    } else cell += c;
  }
  const [head, ...body] = rows.slice(0, -1);
  for (const row of body) expect(row).toHaveLength(head!.length);
  return body.map((row) => Object.fromEntries(row.map((text, i) => [head![i]!, text])));
}

describe('the numbers as CSV', () => {
  const text = csvOf([photo()]);
  const rows = parsed(text);

  it('have a row per outline and zone, with units, doubt, version and guide', () => {
    expect(rows).toHaveLength(2 * 4);
    expect(text.split('\r\n')[0]).toBe(
      'photo,outline,kind,name,zone,L*_D65_2deg,a*_D65_2deg,b*_D65_2deg,C*,h_deg,doubt_dE00,doubt_in_photo_dE00,pixels,unevenness_dE00,glare_share,glare_raised_L*,glare_basis,L*_cross_polarised,nearest_tab,nearest_dE00,nearest_basis,no_numbers_because,untrusted,light_checks,guide,program',
    );
    expect(rows[0]).toMatchObject({ photo: 'a.jpg', outline: 't', kind: 'tooth', zone: 'cervical', 'L*_D65_2deg': '67.05', doubt_dE00: '0.5', untrusted: 'no', no_numbers_because: '', guide: 'My tabs', program: `tabside ${report().version}` });
  });

  it('are quoted where they must be, and run no formula', () => {
    expect(rows[4]!['name']).toBe('A2, "old"');
    expect(rows[0]!['name']).toBe("'=1+1");
    const bad = parsed(csvOf([photo({ photo: ' =cmd|x', guide: '@SUM(1)' })]))[0]!;
    expect([bad['photo'], bad['guide']]).toEqual(["' =cmd|x", "'@SUM(1)"]);
    expect(parsed(csvOf([photo({ photo: 'a\r\nb' })]))[0]!['photo']).toBe('a\r\nb');
  });

  it('name the light checks of the photo and of the outline in each row', () => {
    const made = report();
    const check = (code: string, region?: string) => ({ code, severity: 'care', text: '', remedy: '', ...(region && { region }) }) as LightCheck;
    made.checks = [check('light-uneven'), check('tooth-small', 't'), check('tooth-small', 't')];
    const of = (outline: string) => [...new Set(parsed(csvOf([photo({ report: made })])).filter((r) => r['outline'] === outline).map((r) => r['light_checks']))];
    expect([of('t'), of('a')]).toEqual([['light-uneven tooth-small'], ['light-uneven']]);
  });

  it('have the names that the screen has, beside the ids', () => {
    const nameless: Scene = { ...SCENE, regions: [...SCENE.regions.map((r) => ({ ...r, name: '' })), { id: 'tooth-2', kind: 'tooth', name: '', outline: square(200, 100) }] };
    const made = report(nameless);
    made.ladders = [{ region: 't', zone: 'middle', tabs: [{ name: 'a', delta_e_00: 1, basis: 'in_photo' }] }] as unknown as typeof made.ladders;
    const rows = parsed(csvOf([photo({ scene: nameless, report: made, untrusted: (r) => (r === 'tooth-2' ? 'Dark.' : undefined) })]));
    expect([...new Set(rows.map((r) => `${r['outline']},${r['kind']},${r['name']}`))]).toEqual(['t,tooth,Tooth a', 'a,tab,Tab', 'tooth-2,tooth,Tooth b']);
    expect([...new Set(rows.map((r) => r['nearest_tab']))].sort()).toEqual(['', 'Tab']);
  });
});

describe('the numbers of many photos', () => {
  const rows = parsed(csvOf([
    photo(),
    photo({ photo: 'b, c.jpg', untrusted: (region) => (region === undefined ? 'Lights of different colour meet.' : undefined) }),
    photo({ photo: '=d.jpg', untrusted: (region) => (region === 't' ? 'Too dark.' : undefined) }),
    photo({ photo: 'e.jpg', report: 'not read yet' }),
  ]));
  const of = (name: string) => rows.filter((r) => r['photo'] === name);

  it('are one table, the same as that of one photo', () => {
    expect(of('a.jpg')).toEqual(parsed(csvOf([photo()])));
  });

  it('give a reason where there must be no numbers', () => {
    const blank = (row: Record<string, string> | undefined) => Object.entries(row!).filter(([key, text]) => /L\*|C\*|dE00|pixels|h_deg/.test(key) && text !== '');
    expect(of('b, c.jpg')).toMatchObject([{ untrusted: 'yes', no_numbers_because: 'Lights of different colour meet.' }]);
    expect(of("'=d.jpg").map((r) => [r['outline'], r['untrusted'], r['no_numbers_because']])).toEqual([['t', 'yes', 'Too dark.'], ...Array(4).fill(['a', 'no', ''])]);
    expect(of('e.jpg')).toMatchObject([{ untrusted: 'yes', no_numbers_because: 'not read yet' }]);
    for (const row of [of('b, c.jpg')[0], of("'=d.jpg")[0], of('e.jpg')[0]]) expect(blank(row)).toEqual([]);
  });
});

describe('numbers for people', () => {
  it('have fixed digits, a true minus and no negative nought', () => {
    expect([fixed(1.25), fixed(-1.26), fixed(-0.04), fixed(86.4, 0)]).toEqual(['1.3', '−1.3', '0.0', '86']);
    expect([percent(0), percent(0.001), percent(0.124)]).toEqual(['0 %', '<1 %', '12 %']);
    expect([grouped(999), grouped(1234567)]).toEqual(['999', '1\u202f234\u202f567']);
  });
});
