/**
 * What the engine says comes in English. Another language has a table for it: an English sentence,
 * or a pattern, and what stands for it there. What the table does not know stays English.
 */
import { language } from './index';

/** A pattern gets its groups, as $1 or as arguments; a group that is a sentence itself goes through `engineWords` again. */
export type EngineEntry = readonly [english: string | RegExp, own: string | ((...groups: string[]) => string)];
export type EngineTable = readonly EngineEntry[];

/** Sentences of one text stand one after another. */
const SENTENCES = /(?<=[.!?;])\s+/;
const MOST_KEPT = 2000;

const found = new WeakMap<EngineTable, Map<string, string | null>>();

function lookUp(table: EngineTable, text: string): string | null {
  for (const [english, own] of table) {
    if (typeof english === 'string') {
      if (english === text) return typeof own === 'string' ? own : own();
      continue;
    }
    const groups = english.exec(text);
    // A pattern stands for the whole sentence.
    if (groups?.[0] !== text) continue;
    return typeof own === 'string' ? own.replace(/\$(\d)/g, (_, n: string) => groups[Number(n)] ?? '') : own(...groups.slice(1).map((g) => g ?? ''));
  }
  return null;
}

function translated(table: EngineTable, text: string): string | null {
  const whole = lookUp(table, text);
  if (whole !== null) return whole;
  const sentences = text.split(SENTENCES);
  if (sentences.length < 2) return null;
  const own = sentences.map((sentence) => lookUp(table, sentence));
  // Half of it in another language helps nobody.
  return own.includes(null) ? null : own.join(' ');
}

/** Numbers in a sentence, with the decimal sign of the language. */
const withSign = (text: string, sign: string): string => (sign === '.' ? text : text.replace(/(\d)\.(?=\d)/g, `$1${sign}`));

export function engineWords(text: string): string {
  const { engine, decimal = '.' } = language.value;
  if (!engine || text === '') return text;
  let kept = found.get(engine);
  if (!kept || kept.size > MOST_KEPT) found.set(engine, (kept = new Map()));
  let own = kept.get(text);
  if (own === undefined) kept.set(text, (own = translated(engine, text)));
  return own === null ? text : withSign(own, decimal);
}
