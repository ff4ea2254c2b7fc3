/**
 * The parts that the engine's sentences are made of. A row is an English sentence with holes and its
 * Spanish one; a hole is named after what stands in it, {n} anything, and its text is translated by that.
 */
import { engineWords, type EngineEntry } from '../engine';
import { listed, lower, upper } from './grammar';

export type Row = readonly [english: string, own: string];
type Hole = readonly [source: string, own: (text: string) => string];

/** Not beyond the end of a sentence. */
export const ANY = '(?:(?![.!?] ).)+?';
const same = (text: string): string => text;

const THIRDS: Record<string, string> = { cervical: 'tercio cervical', middle: 'tercio medio', incisal: 'tercio incisal', whole: 'conjunto' };
const third = (text: string): string => THIRDS[text.toLowerCase().split(' ')[0] ?? ''] ?? text;
/** "Cervical and middle third". */
function thirds(text: string): string {
  const names = (text.toLowerCase().match(/cervical|middle|incisal/g) ?? []).map((t) => third(t).replace('tercio ', ''));
  return names.length > 0 ? `${names.length > 1 ? 'Tercios' : 'Tercio'} ${listed(names)}` : upper(third(text));
}

const KINDS: Record<string, string> = { Tooth: 'Diente', Restoration: 'Restauración', Tab: 'Muestra' };

/** One part of a difference: what it is called alone, slightly, clearly. The colour differs, so it is masculine. */
const PARTS: Record<string, readonly [string, string, string]> = {
  lighter: ['más claro', 'algo más claro', 'claramente más claro'],
  darker: ['más oscuro', 'algo más oscuro', 'claramente más oscuro'],
  'more chroma': ['más croma', 'algo más de croma', 'claramente más croma'],
  'less chroma': ['menos croma', 'algo menos de croma', 'claramente menos croma'],
  yellower: ['más amarillo', 'algo más amarillo', 'claramente más amarillo'],
  redder: ['más rojo', 'algo más rojo', 'claramente más rojo'],
  'another hue': ['otro tono', 'tono algo distinto', 'tono claramente distinto'],
  'no difference to speak of': ['sin diferencia apreciable', '', ''],
  'no difference to speak of from its target': ['sin diferencia apreciable con su objetivo', '', ''],
};
/** What one coat does. */
const DOES: Record<string, string> = {
  'raises value': 'sube el valor', 'lowers value': 'baja el valor', 'adds chroma': 'añade croma', 'takes chroma away': 'quita croma',
  'towards yellow': 'hacia el amarillo', 'towards red': 'hacia el rojo', 'hardly a change': 'apenas cambia nada',
};
const oneOf = (table: object): string => Object.keys(table).sort((a, b) => b.length - a.length).join('|');
const PART = `(?:clearly |slightly )?(?:${oneOf(PARTS)})`;
const DO = `(?:${oneOf(DOES)})`;

export const WORDS = `${PART}(?:, ${PART})*`;

const part = (text: string): string => {
  const [, how, what = ''] = /^(clearly |slightly )?(.*)$/.exec(text) ?? [];
  return PARTS[what]?.[how === undefined ? 0 : how === 'slightly ' ? 1 : 2] ?? text;
};
export const parts = (text: string): string => text.split(', ').map(part).join(', ');

const coats = (text: string): string => text.replace(/coat/g, 'capa');
const mix = (text: string): string =>
  text === 'nothing' ? 'nada' : text.replace(/^(.*) alone$/, '$1 solo').split(' + ').map((p) => p.replace(/^(\d+) part(s?) /, '$1 parte$2 ')).join(' + ');

/** Engine lists of names or figures. */
const list = (text: string): string => {
  const all = text.split(/, | and /);
  return listed(all, all.some((t) => /^[\d.]+$/.test(t)) ? '; ' : ', ');
};

const HOLES: Record<string, Hole> = {
  n: [ANY, same],
  num: ['[\\d.]+', same],
  /** Between quotes. */
  q: ['[^”]*', same],
  who: [`(?:Tooth|Restoration|Tab) “[^”]*”|${ANY}`, (text) => text.replace(/^(Tooth|Restoration|Tab) (?=“)/, (_, kind: string) => `${KINDS[kind]} `)],
  third: ['(?:cervical|middle|incisal) third|whole', third],
  Third: ['(?:Cervical|Middle|Incisal) third|Whole', (text) => upper(third(text))],
  thirds: ['(?:Cervical|Middle|Incisal)(?:(?:, | and )(?:middle|incisal))* third|Whole', thirds],
  words: [WORDS, parts],
  does: [`${DO}(?:, ${DO})*`, (text) => text.split(', ').map((t) => DOES[t] ?? t).join(', ')],
  coats: ['[^:]+? coats?', coats],
  mix: [ANY, mix],
  list: [ANY, list],
  side: ['left|right', (text) => (text === 'left' ? 'a la izquierda' : 'a la derecha')],
  more: ['less|more', (text) => (text === 'less' ? 'menos' : 'más')],
  /** A sentence that goes on, or not. */
  end: ['[.;]', same],
  gap: ['\\s+', () => ' '],
  /** All that follows, a text of its own. */
  rest: ['.+', (text) => engineWords(text)],
  'rest-low': ['.+', (text) => lower(engineWords(text))],
};
const HOLE = /\{([a-zA-Z-]+)(\d?)\}/;

/** A row's holes may be those of a table of its own: what they stand for, word for word. */
export const choice = (table: Record<string, string>): Hole => [oneOf(table).replace(/[()]/g, '\\$&'), (text) => table[text] ?? text];

function entry([english, own]: Row, more: Record<string, Hole>): EngineEntry {
  const holes = english.match(new RegExp(HOLE, 'g')) ?? [];
  if (holes.length === 0) return [english, own];
  const hole = (name: string): Hole => more[name] ?? HOLES[name] ?? [ANY, same];
  const nameOf = (text: string): string => HOLE.exec(text)?.[1] ?? '';
  const source = english.split(new RegExp(HOLE.source.replaceAll('(', '(?:'))).map((t) => t.replace(/[.*+?^$()[\]{}|\\]/g, '\\$&'));
  const pattern = source.map((text, i) => text + (holes[i] ? `(${hole(nameOf(holes[i]))[0]})` : '')).join('');
  return [new RegExp(`^${pattern}$`), (...groups) => holes.reduce((sofar, text, i) => sofar.replace(text, () => hole(nameOf(text))[1](groups[i] ?? '')), own)];
}

const SENTENCES = /(?<=[.!?;])\s+/;

/** Whole, and sentence by sentence where both have as many: texts come joined, too. */
export function tableOf(rows: readonly Row[], more: Record<string, Hole> = {}): EngineEntry[] {
  const single = rows.flatMap(([english, own]): Row[] => {
    const [e, o] = [english.split(SENTENCES), own.split(SENTENCES)];
    return e.length > 1 && e.length === o.length ? e.map((text, i) => [text, o[i] ?? text]) : [];
  });
  return [...rows, ...single].map((row) => entry(row, more));
}
