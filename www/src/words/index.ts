/**
 * Everything the page says, in one place, in the language that was chosen: `words.plan.print`. It
 * follows a signal, so that what is shown or computed from it changes with the language; it must
 * therefore be read where it is used, never kept in a constant of a module.
 * What the engine says (checks, differences, advice) arrives in English: `engineWords`.
 */
import { signal } from '@preact/signals';
import { english } from './en';
import type { EngineTable } from './engine';
import type { LaterWords } from './later';

type Loose<T> = T extends (...args: infer A) => infer R ? (...args: A) => Loose<R> : T extends string ? string : T extends number ? number : { readonly [K in keyof T]: Loose<T[K]> };

/** The shape of every catalogue. */
export type Words = Loose<typeof english & LaterWords>;

export interface Language {
  /** BCP 47. */
  readonly tag: string;
  readonly words: Words;
  /** For the sentences that the engine says; without it they stay English. */
  readonly engine?: EngineTable;
  /** The decimal sign, where it is no point. */
  readonly decimal?: string;
}

/** Some of its words come later: with the parts of the page that say them. */
export const ENGLISH: Language = { tag: 'en', words: english as unknown as Words };

export const language = signal<Language>(ENGLISH);

const section = (name: keyof Words): PropertyDescriptor => ({ enumerable: true, get: () => language.value.words[name] });

const sections = (of: object): PropertyDescriptorMap => Object.fromEntries((Object.keys(of) as (keyof Words)[]).map((name) => [name, section(name)]));

export const words = Object.defineProperties({}, sections(english)) as Words;

/** For `words/later` alone. */
export function addWords(more: LaterWords): void {
  Object.assign(english, more);
  Object.defineProperties(words, sections(more));
}
