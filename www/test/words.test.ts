import { readdirSync, readFileSync } from 'node:fs';
import { parseSync } from 'vite';
import { describe, expect, it } from 'vitest';
import '../src/words/later';
import { mixText } from '../src/views/plan/said';
import { ENGLISH, words } from '../src/words';
import * as german from '../src/words/de';
import * as spanish from '../src/words/es';

const SOURCE = new URL('../src/', import.meta.url);
const files = readdirSync(SOURCE, { recursive: true, encoding: 'utf8' }).filter((f) => /\.tsx?$/.test(f));
const textOf = (file: string) => readFileSync(new URL(file, SOURCE), 'utf8');

/** Every entry of the catalogue with its path. */
function entries(node: unknown, path: string[] = []): [string[], unknown][] {
  const branch = typeof node === 'object' && node !== null && !Array.isArray(node);
  return branch ? Object.entries(node).flatMap(([key, value]) => entries(value, [...path, key])) : [[path, node]];
}

const SPOKEN = new Set(['aria-label', 'aria-description', 'title', 'placeholder', 'alt', 'label', 'hint']);
const letters = (text: unknown): boolean => typeof text === 'string' && /\p{L}/u.test(text);

/** Text a person would read that stands in the code instead of the catalogue. */
function strayText(node: unknown): string[] {
  if (Array.isArray(node)) return node.flatMap(strayText);
  if (typeof node !== 'object' || node === null) return [];
  const { type, name, value } = node as { type?: string; name?: { name?: string }; value?: any };
  const own =
    type === 'JSXText' && letters(value) ? [value.trim()]
    : type === 'JSXAttribute' && SPOKEN.has(name?.name ?? '') && letters(value?.value) ? [`${name?.name}=${value.value}`]
    : [];
  return [...own, ...Object.values(node).flatMap(strayText)];
}

describe('the message catalogue', () => {
  it('has words everywhere', () => {
    const empty = entries(words).filter(([, value]) => {
      if (Array.isArray(value)) return value.length === 0 || !value.every(letters);
      return typeof value !== 'function' && !letters(value);
    });
    expect(empty.map(([path]) => path.join('.'))).toEqual(['numbers.doubt', 'stage.actual']);
  });

  it('holds all text that components show', () => {
    const stray = files
      .filter((f) => f.endsWith('.tsx'))
      .flatMap((f) => strayText(parseSync(f, textOf(f)).program).map((text) => `${f}: ${text}`));
    // The name of the page is the same in every language.
    expect(stray).toEqual(['views/top_bar.tsx: Tabside']);
  });

  it('has no entry that nothing uses', () => {
    const code = files.filter((f) => !/words[\\/]/.test(f)).map(textOf).join('\n');
    const inWords = textOf('words/names.ts');
    // Of a table by engine words (verdicts, zones, …) the table's own name is what the code names.
    const tables = /^(errors\.fileParts|.*\.(severity|bases|verdict|direction|kinds?|kindHead|zone|zoneShort|phase|space|steps|factNames|choose|internal|rungs|faults|fields|views|shown|raisedBy|shortfall|texts))\./;
    const unused = entries(words)
      .map(([path]) => path)
      .filter((path) => !tables.test(path.join('.')))
      .filter((path) => !new RegExp(`[.[]'?${path.at(-1)}\\b`).test(code + inWords));
    expect(unused.map((p) => p.join('.'))).toEqual([]);
  });

  it('has words for every code the engine may send', () => {
    const stated = textOf('../pkg/tabside.d.ts');
    const codes = (type: string) => [...stated.match(new RegExp(`export type ${type} = (.*);`))![1]!.matchAll(/"([^"]+)"/g)].map((m) => m[1]!);
    const tables = {
      Verdict: words.sheet.verdict, StainDirection: words.sheet.direction, Severity: words.sheet.checks.severity,
      RungBasis: words.sheet.ladder.bases, Zone: words.names.zone, RegionKind: words.names.kind, SpaceSource: words.numbers.space,
      Trust: words.trust.rungs,
    };
    for (const [type, table] of Object.entries(tables)) expect([type, ...Object.keys(table).sort()]).toEqual([type, ...codes(type).sort()]);
  });

  it('has one word for one thing', () => {
    for (const { sheet, tray } of [ENGLISH.words, german.words, spanish.words]) expect(`${sheet.checks.severity.retake}:`).toBe(tray.check.retake);
    expect(words.sheet.checks.severity.retake).toBe('Take again');
  });

  it('names what has no name of its own as one would within a sentence', () => {
    expect([words.sheet.how('Restoration'), words.sheet.how('Restoration 21'), words.sheet.nearestTo('Tooth')]).toEqual(['How to bring the restoration nearer', 'How to bring Restoration 21 nearer', 'to the tooth']);
  });

  it('has each stain of a mix with its parts', () => {
    const mix = [{ stain: 'X', parts: 5 }, { stain: 'Y', parts: 5 }];
    expect(mixText({ mix, coats: 1 })).toBe('5 parts X + 5 parts Y');
    expect(german.words.plan.mix(mix.map((p) => german.words.plan.part(p.parts, p.stain)))).toBe('5 Teile X + 5 Teile Y');
    expect(spanish.words.plan.mix(mix.map((p) => spanish.words.plan.part(p.parts, p.stain)))).toBe('5 partes X + 5 partes Y');
  });
});
