import { h } from 'preact';
import { describe, expect, it } from 'vitest';
import { csvOf } from '../src/charts/csv';
import { fileNameOf, photoBase } from '../src/views/pick_file';
import { plain, plainWords } from '../src/views/plain';

const HIDDEN = /[\u0000-\u0008\u202a-\u202e\u2066-\u2069\u200b\ufeff]/;

describe('what is shown', () => {
  it('has no signs that turn others around or hide, and keeps those that scripts need', () => {
    expect(plain('11\u202e 70.1\u2066\u200b\u0007\u009b')).toBe('11 70.1');
    for (const kept of ['שלום', 'می\u200cخواهم', '👩\u200d🔬', 'Resto\u00adration', 'a\tb\nc', '1\u202f000', '<b>&amp;${x}']) expect(plain(kept)).toBe(kept);
  });

  it('is so for words in elements and in what is read out, but not for what stands in fields', () => {
    const button = h('button', { 'aria-label': 'Open \u202ea', title: '\u202eb', value: '\u202ec' }, '\u202ed', ['\u202ee', 3, null], h('b', null, 'f'));
    plainWords(button as never);
    const { children, ...rest } = button.props as unknown as Record<string, unknown> & { children: unknown[] };
    expect(rest).toEqual({ 'aria-label': 'Open a', title: 'b', value: '\u202ec' });
    expect(children.slice(0, 2)).toEqual(['d', ['e', 3, null]]);
    const component = h(() => null, { name: '\u202ex' } as never);
    plainWords(component as never);
    expect(component.props).toEqual({ name: '\u202ex' });
  });
});

describe('names of files', () => {
  it('lead nowhere, hide nothing and are files on every system', () => {
    const bad = ['../../etc/passwd', '..\\..\\x', 'C:\\x', '/x', 'a\u0000b', 'a\nb', 'con', 'NUL.tar', 'com1', 'LPT9 .x', 'aux.', '...', ' . ', '~x', '.hidden', 'x. .', 'photo\u202egpj.exe', '<img src=x onerror=alert(1)>', 'a|b?*"', '\ud83e', 'x'.repeat(5000), '🦷'.repeat(3000)];
    for (const text of bad) {
      for (const name of [fileNameOf(text), photoBase({ name: `${text}.jpg` })]) {
        expect(name).not.toMatch(/[\\/:*?"<>|\u0000-\u001f]|^[.~\s]|[.\s]$/u);
        expect(name).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)\s*(\.|$)/i);
        expect(name).not.toMatch(HIDDEN);
        expect(name).not.toMatch(/\p{Surrogate}/u);
        expect([...name].length).toBeLessThanOrEqual(101);
        expect(fileNameOf(name)).toBe(name);
      }
    }
    expect(photoBase({ name: '..jpg' })).toBe('tabside');
    expect(photoBase(null)).toBe('tabside');
  });

  it('stay what they were where nothing is wrong', () => {
    for (const good of ['Upper left 1', 'Müller 12.3', 'A-2 (old)', 'ñandú', 'console', 'comfort', 'shelf 3']) expect(fileNameOf(good)).toBe(good);
    expect(photoBase({ name: 'demo photo.jpg' })).toBe('demo photo');
  });
});

/** The cells as a spreadsheet parts a line, by commas or by semicolons, quotes counting only around whole cells. */
function cells(table: string, comma: string): string[] {
  return table.split(/[\r\n]+/).flatMap((line) => line.split(comma)).flatMap((cell) => cell.split(/[\t|]/)).map((cell) => cell.replace(/^[\s"]+/, ''));
}

it('no cell of a table is a formula, wherever a spreadsheet parts it, and numbers below zero stay numbers', () => {
  for (const name of ['=1+1', '+1', '-1', '@x', ' =1', '\t=1', '\r=1', '\n=1', 'a;=1', 'a; =1', 'a;"=1', 'a\t=1', 'a\n=1', 'a|=1', '\u202e=1', '\u200b=1', '\ufeff=1', '\u0000=1', '＝1', '＠x', '"=1', '";"=1', 'a","=1']) {
    const scene = { card: null, regions: [] };
    const table = csvOf([{ photo: name, scene, report: name, untrusted: () => undefined, guide: name }]);
    for (const cell of cells(table, ';')) expect([name, cell]).toEqual([name, expect.not.stringMatching(/^[=+\-@＝＋－＠]/)]);
    const quoted = [...table.matchAll(/"((?:[^"]|"")*)"/g)].map(([, text]) => text!.replace(/^\s+/, ''));
    for (const cell of quoted) expect([name, cell]).toEqual([name, expect.not.stringMatching(/^[=+\-@＝＋－＠]/)]);
    expect(table).not.toMatch(HIDDEN);
  }
});
