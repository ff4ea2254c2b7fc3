/** What many of the engine's sentences are made of: differences, thirds, names, coats. */
import type { EngineEntry, EngineTable } from '../engine';
import { ofThird } from './grammar';

/** „deutlich heller, weniger Chroma“. */
const differences = Object.fromEntries(
  Object.entries({ '': '', 'clearly ': 'deutlich ', 'slightly ': 'etwas ' }).flatMap(([grade, own]) =>
    Object.entries({ lighter: 'heller', darker: 'dunkler', 'more chroma': 'mehr Chroma', 'less chroma': 'weniger Chroma', yellower: 'gelblicher', redder: 'rötlicher', 'another hue': 'anderer Farbton' }).map(([word, is]) => [grade + word, own + is]),
  ),
);

const effects = { 'raises value': 'hebt die Helligkeit', 'lowers value': 'senkt die Helligkeit', 'adds chroma': 'erhöht das Chroma', 'takes chroma away': 'senkt das Chroma', 'towards yellow': 'Richtung Gelb', 'towards red': 'Richtung Rot' };

/** A list of these, with commas. */
const listOf = (table: Readonly<Record<string, string>>): EngineEntry => {
  const one = `(?:${Object.keys(table).join('|')})`;
  return [new RegExp(`^(${one}(?:, ${one})*)$`), (text) => text.split(', ').map((part) => table[part]).join(', ')];
};

export const difference = (text: string): string => text.split(', ').map((part) => differences[part] ?? part).join(', ');

/** „zervikalen Drittel“, from „cervical third“ or „Cervical third“. */
export const third = (text: string, ending: 'e' | 'en' | 'es'): string => (/^whole/i.test(text) ? `Ganze${{ e: '', en: 'n', es: 's' }[ending]}` : `${ofThird(text.replace(/ third$/, ''), ending)} Drittel`);

const KINDS: Record<string, string> = { Tooth: 'Zahn', Restoration: 'Restauration', Tab: 'Farbmuster' };

/** A region as the page calls it. */
export const who = (text: string): string => text.replace(/^(Tooth|Restoration|Tab) “(.*)”$/, (_, kind: string, name: string) => `${KINDS[kind]} ${name}`);

export const quoted = (text: string): string => text.replace(/“(.+?)”/g, '„$1“');

export const list = (text: string): string => quoted(text).replace(/ and (?!.* and )/, ' und ');

export const coats = (n: string): string => `${n} ${/^(1|[¼½¾]|0(\.\d+)?)$/.test(n) ? 'Schicht' : 'Schichten'}`;

export const parts: EngineTable = [
  listOf(differences),
  listOf(effects),
  ['no difference to speak of', 'kein nennenswerter Unterschied'],
  ['no difference to speak of from its target', 'kein nennenswerter Unterschied zum Ziel'],
  ['hardly a change', 'kaum eine Veränderung'],
];
