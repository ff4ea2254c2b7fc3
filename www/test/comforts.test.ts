import { readdirSync, readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { fixed, grouped, percent, shortest } from '../src/charts/format';
import { chosenLanguage, LANGUAGES } from '../src/state/language';
import { settingsFrom } from '../src/state/settings';
import { following, selectorOf, STATIONS } from '../src/state/tour_model';
import { inField, numberOf, typedNumber } from '../src/state/typed_number';
import { KEY_GROUPS, signOf } from '../src/views/keys_list';
import { ENGLISH, language, words } from '../src/words';
import * as german from '../src/words/de';
import { engineWords, type EngineTable } from '../src/words/engine';
import * as spanish from '../src/words/es';

const SOURCE = new URL('../src/', import.meta.url);
const sourceOf = (file: string) => readFileSync(new URL(file, SOURCE), 'utf8');

afterEach(() => {
  language.value = ENGLISH;
});

const inGerman = (engine: EngineTable = []) => (language.value = { tag: 'de', words: german.words, engine, decimal: ',' });

describe('what was set', () => {
  it('is taken over when it is something that is set here', () => {
    const all = { surround: 'light', language: 'de', singleKeys: false, tourSeen: true };
    expect(settingsFrom(JSON.stringify(all))).toEqual(all);
    expect(settingsFrom(JSON.stringify({ surround: 'device' }))).toEqual({ surround: 'device' });
  });

  it('counts as nothing when it is anything else', () => {
    for (const text of [null, '', 'dark', '{', 'null', '7', '[]', '{"surround":"pink","language":"<b>","singleKeys":0,"tourSeen":"yes","other":1}']) expect([text, settingsFrom(text)]).toEqual([text, {}]);
  });

  it('holds for the visit where storage is refused, and is kept where it is not', async () => {
    const refused = () => {
      throw new Error('refused');
    };
    vi.stubGlobal('localStorage', { getItem: refused, setItem: refused });
    vi.resetModules();
    const shut = await import('../src/state/settings');
    shut.remember({ surround: 'light' });
    expect(shut.surround.value).toBe('light');
    const kept = new Map<string, string>();
    vi.stubGlobal('localStorage', { getItem: (k: string) => kept.get(k) ?? null, setItem: (k: string, v: string) => kept.set(k, v) });
    vi.resetModules();
    const open = await import('../src/state/settings');
    expect([open.surround.value, kept.size]).toEqual(['dark', 0]);
    open.remember({ singleKeys: false });
    open.remember({ singleKeys: undefined, language: 'es' });
    expect([...kept]).toEqual([['tabside.settings.1', '{"language":"es"}']]);
    vi.unstubAllGlobals();
    vi.resetModules();
  });
});

describe('the language', () => {
  it('is the first wanted one that there is', () => {
    expect([['de-AT'], ['fr', 'es-MX', 'de'], ['fr'], [], ['en-GB', 'de'], ['DE']].map(chosenLanguage)).toEqual(['de', 'es', 'en', 'en', 'en', 'de']);
    expect(LANGUAGES.map((l) => l.tag)).toEqual(['en', 'de', 'es']);
  });

  it('changes the words where they are read', () => {
    const english = words.modes.names.reading;
    inGerman();
    expect(words.modes.names.reading).toBe(german.words.modes.names.reading);
    expect(words.modes.names.reading).not.toBe(english);
  });

  it.each([['de', german], ['es', spanish]] as const)('keeps in %s what data are known again by', (_, { words: own }) => {
    expect([own.demo.name, own.swatches.demoNote]).toEqual([words.demo.name, words.swatches.demoNote]);
    expect(Object.keys(own).sort()).toEqual(Object.keys(ENGLISH.words).sort());
  });
});

describe('what the engine says', () => {
  const table: EngineTable = [
    ['Lower value.', 'Helligkeit senken.'],
    [/^The light differs by (\S+) %\.$/, 'Das Licht ist um $1 % ungleich.'],
    [/^(.+) is off by (\S+) ΔE00; (.+)$/, (name, by, then) => `${name} liegt um ${by} ΔE00 daneben; ${engineWords(then)}`],
  ];

  it('stays as it is in English', () => {
    expect(engineWords('Lower value.')).toBe('Lower value.');
  });

  it('is found whole, by pattern, by part and sentence by sentence', () => {
    inGerman(table);
    expect(engineWords('Lower value.')).toBe('Helligkeit senken.');
    expect(engineWords('The light differs by 3.5 %.')).toBe('Das Licht ist um 3,5 % ungleich.');
    expect(engineWords('Tab “A2” is off by 1.2 ΔE00; Lower value.')).toBe('Tab “A2” liegt um 1,2 ΔE00 daneben; Helligkeit senken.');
    expect(engineWords('Lower value. The light differs by 3 %.')).toBe('Helligkeit senken. Das Licht ist um 3 % ungleich.');
  });

  it('stays English as a whole where the table does not know it', () => {
    inGerman(table);
    expect(engineWords('Lower value. Something new at 1.5.')).toBe('Lower value. Something new at 1.5.');
    expect(engineWords('Do not lower value. ')).toBe('Do not lower value. ');
    expect(engineWords('')).toBe('');
  });

  it('is put into the language together with the names', () => {
    inGerman(table);
    const scene = { card: null, regions: [{ id: 'tooth-1', kind: 'tooth' as const, name: '', outline: [] }] };
    expect(words.names.said(scene, 'Tooth “tooth-1” is off by 1.2 ΔE00; Lower value.')).toBe(`${german.words.names.kind.tooth} liegt um 1,2 ΔE00 daneben; Helligkeit senken.`);
  });
});

describe('numbers', () => {
  it('have the decimal sign of the language, a true minus and no −0', () => {
    expect([fixed(-1.25), fixed(-0.04), fixed(12345.6, 0), fixed(2, 2), shortest(1.5), shortest(-0.001)]).toEqual(['−1.3', '0.0', '12346', '2.00', '1.5', '0']);
    inGerman();
    expect([fixed(-1.25), fixed(-0.04), fixed(12345.6, 0), fixed(2, 2), shortest(1.5)]).toEqual(['−1,3', '0,0', '12346', '2,00', '1,5']);
    expect([percent(0.004), percent(0.5), grouped(29584)]).toEqual(['<1 %', '50 %', '29\u202f584']);
    expect([typedNumber(-1.234), inField(-1.234), numberOf(inField(-1.234))]).toEqual(['−1,23', '-1,23', -1.23]);
  });

  it('in Spanish are not grouped either', () => {
    language.value = { tag: 'es', words: spanish.words, decimal: ',' };
    expect([fixed(1234.56), fixed(12345.6, 0)]).toEqual(['1234,6', '12346']);
  });
});

describe('the list of keys', () => {
  const files = readdirSync(SOURCE, { recursive: true, encoding: 'utf8' }).filter((f) => /\.tsx?$/.test(f) && !/words[\\/]|keys_list|keys_dialog|view_buttons/.test(f));
  const lines = Object.values(KEY_GROUPS).flat();

  // Space presses buttons, as everywhere.
  it('names every key that the code asks for, and no other', () => {
    const code = files.map(sourceOf).join('\n');
    const asked = [...code.matchAll(/(?:\bevent\.|\be\.|[^.\w])key === '(.|[A-Z]\w+)'/g)].map((m) => m[1]!).filter((k) => k !== ' ');
    const arrows = [...code.matchAll(/\b(Arrow\w+):/g)].map((m) => m[1]!);
    const listed = lines.flatMap((l) => l.keys).map((k) => (k === '+' ? k : k.split('+').at(-1)!));
    expect(asked.length).toBeGreaterThan(15);
    expect([...new Set(listed)].sort()).toEqual([...new Set([...asked, ...arrows])].sort());
  });

  it('says what each does, once in each place', () => {
    for (const [group, of] of Object.entries(KEY_GROUPS)) {
      expect(words.keys.groups.texts[group as keyof typeof KEY_GROUPS]).toBeTruthy();
      const keys = of.flatMap((l) => l.keys);
      expect([group, new Set(keys).size]).toEqual([group, keys.length]);
    }
    expect(lines.map((l) => l.does).sort()).toEqual(Object.keys(words.keys.texts).sort());
    expect(['ArrowLeft', 'z', '-', '?', 'Escape'].map(signOf)).toEqual(['←', 'Z', '−', '?', 'Escape']);
  });
});

describe('help where the words stand', () => {
  it('is two sentences each', () => {
    for (const [name, text] of Object.entries(words.help.terms.texts)) {
      const sentences = text.replace(/et al\. /g, 'et al ').replace(/(\d)\.(\d)/g, '$1,$2').match(/[^.]+\.(\s|$)/g);
      expect([name, sentences?.length]).toEqual([name, 2]);
    }
    expect(words.help.terms.texts.deltaE).toMatch(/0\.8.*1\.8.*Paravina et al\. 2015/);
  });
});

describe('the tour', () => {
  const all = () => true;
  it('passes over what is not there, both ways, and ends', () => {
    const without = (...names: string[]) => (selector: string) => !STATIONS.some((s) => names.includes(s.name) && s.at.includes(selector));
    expect(following(-1, 1, all)).toBe(0);
    expect(following(0, 1, without('light', 'answer'))).toBe(3);
    expect(following(3, -1, without('light', 'answer'))).toBe(0);
    expect(following(0, -1, all)).toBeNull();
    expect(following(STATIONS.length - 1, 1, all)).toBeNull();
    expect(following(-1, 1, () => false)).toBeNull();
  });

  it('points at the first that is there, is short, and has words for every station', () => {
    expect(selectorOf(STATIONS[1]!, (s) => s === '.checks')).toBe('.checks');
    expect(STATIONS.map((s) => s.name)).toEqual(Object.keys(words.tour.stations.steps));
    const spoken = Object.values(words.tour.stations.steps).map((s) => `${s.title} ${s.text}`).join(' ').split(/\s+/).length;
    // 200 words a minute are read with ease.
    expect(spoken / 200).toBeLessThan(0.75);
  });
});

describe('the two surrounds', () => {
  const css = readFileSync(new URL('styles/tokens.css', SOURCE), 'utf8');
  const setOf = (block: string) => Object.fromEntries([...block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{3,6});/g)].map((m) => [m[1]!, m[2]!]));
  const [first, second] = css.split(":root[data-surround='light']");
  const dark = setOf(first!);
  const sets = { dark, light: { ...dark, ...setOf(second!) } };
  const channels = (hex: string) => (hex.length === 4 ? [...hex.slice(1)].map((c) => c + c) : hex.slice(1).match(/../g)!).map((c) => parseInt(c, 16));
  const luminance = (hex: string) => {
    const v = channels(hex)[0]! / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  };
  // WCAG 2.2, 1.4.3 and 1.4.11; of greys the luminance is that of one channel.
  const contrast = (a: string, b: string) => {
    const [x, y] = [luminance(a), luminance(b)].sort((m, n) => n - m);
    return (x! + 0.05) / (y! + 0.05);
  };

  it.each(Object.entries(sets))('%s: neutral, and clear enough to read and to press', (_, t) => {
    for (const [name, hex] of Object.entries(t)) expect([name, new Set(channels(hex)).size]).toEqual([name, 1]);
    for (const ground of ['ground', 'panel', 'raised']) {
      for (const text of ['text', 'soft']) expect([text, ground, contrast(t[text]!, t[ground]!) >= 4.5]).toEqual([text, ground, true]);
      for (const line of ['line', 'mark', 'ink', 'bright', 'accent']) expect([line, ground, contrast(t[line]!, t[ground]!) >= 3]).toEqual([line, ground, true]);
    }
    for (const ground of ['ground', 'panel']) expect([ground, contrast(t['control']!, t[ground]!) >= 3]).toEqual([ground, true]);
    for (const text of ['on-bright', 'soft-on-bright']) expect([text, contrast(t[text]!, t['bright']!) >= 4.5]).toEqual([text, true]);
    expect(t['surround']).toBe('#767676');
  });

  it('leave no grey in the other styles, but for what lies on pictures and on paper', () => {
    const files = readdirSync(new URL('styles/', SOURCE)).filter((f) => !/^(tokens|print|step_sheet|overlay|notes|patient)\.css$/.test(f));
    const outside = files.flatMap((f) => {
      const text = sourceOf(`styles/${f}`).replace(/@media print \{[\s\S]*?\n\}/g, '');
      return [...text.matchAll(/^\s+([\w-]+): .*(?:#[0-9a-f]{3,8}\b|rgb\().*;$/gm)].map((m) => `${f}: ${m[0].trim()}`);
    });
    const known = ['evenness.css: fill: #a6a6a6;', 'plan.css: background: #fff;', 'plan.css: box-shadow: 0 0 0 1px rgb(0 0 0 / 0.6);', 'settings.css: background: rgb(0 0 0 / 0.5);', 'tour.css: border: 3px solid #fff;', 'tour.css: outline: 2px solid #000;', 'tour.css: box-shadow: inset 0 0 0 2px #000;'];
    expect(outside.filter((line) => !known.includes(line))).toEqual([]);
  });
});
