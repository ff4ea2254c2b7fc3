/** What the sentences about a case file are made of: what cannot be in it, why a part cannot be read, what was removed. */
import { engineWords } from '../engine';
import type { Row } from './engine_parts';
import { lower } from './grammar';

export type Hole = readonly [source: string, own: (text: string) => string];

/** Versions and names of files keep their points: a word joiner, which is not seen, stands behind them. */
export const verbatim = (text: string): string => text.replace(/(\d)\.(?=\d)/g, '$1.\u2060');

const LONG: Record<string, string> = {
  'its label': 'su rótulo', 'its program version': 'su versión del programa', 'its time': 'su fecha', 'the id of a photo': 'el id de una foto', 'the name of a photo': 'el nombre de una foto',
  'a remark on what was removed': 'una observación sobre lo quitado', 'the id of a note': 'el id de una nota', 'a note': 'una nota', 'the id of a region': 'el id de un contorno', 'the name of a region': 'el nombre de un contorno',
};
const MANY: Record<string, string> = {
  photos: 'fotos', 'entries of the page': 'entradas de la página', 'remarks on what was removed': 'observaciones sobre lo quitado', 'notes on a photo': 'notas en una foto', 'steps of a card': 'parches en una tarjeta',
  'regions on a photo': 'contornos en una foto', 'points in one outline': 'puntos en un contorno',
};
const WRONG: Record<string, string> = {
  'two of its photos have one id': 'dos de sus fotos tienen el mismo id', 'two of its photos are one part of the file': 'dos de sus fotos son la misma parte del archivo', 'a photo has no id': 'una foto no tiene id',
  'a photo names a partner that is no cross-polarised photo of the case': 'una foto nombra una pareja que no es una foto con polarización cruzada del caso', 'the checksum of a photo is none': 'la suma de comprobación de una foto no lo es',
};

/** What a case cannot be; also what is wrong with its shade guide, whose sentence has lost its last point. */
function wrong(what: string): string {
  const own =
    WRONG[what] ??
    what
      .replace(/^(.+) is longer than (\d+) characters$/, (_, part: string, most: string) => `${LONG[part] ?? part} tiene más de ${most} caracteres`)
      .replace(/^it has (\d+) (.+), of (\d+) at most$/, (_, n: string, many: string, most: string) => `tiene ${n} ${MANY[many] ?? many}; se admiten ${most} como máximo`)
      .replace(/^a point lies farther than (\d+) px from its photo$/, 'un punto queda a más de $1 px de su foto');
  return own === what ? engineWords(`${what}.`).replace(/\.$/, '') : own;
}

const thing = (text: string): string =>
  text
    .replace(/^string "(.*)"$/, 'el texto “$1”')
    .replace(/^(?:integer|floating point) `(.+)`$/, (_, n: string) => `el número ${n}`)
    .replace(/^boolean `(.+)`$/, '“$1”')
    .replace(/^null$/, '“null”')
    .replace(/^sequence$/, 'una lista')
    .replace(/^map$/, 'un objeto');

/** Why a text is not the data that it should be, as the parser says it; its end may be cut off. */
const WHY: readonly (readonly [RegExp, string])[] = [
  [/^it is missing$/, 'falta'],
  [/^it is no object$/, 'no es un objeto'],
  [/^EOF while parsing .*$/, 'el texto se interrumpe'],
  [/^missing field `([^`]*).*$/, 'falta el campo “$1”'],
  [/^unknown field `([^`]*).*$/, 'el campo “$1” no se conoce'],
  [/^duplicate field `([^`]*).*$/, 'el campo “$1” figura dos veces'],
  [/^unknown variant `([^`]*).*$/, 'la palabra “$1” no es posible ahí'],
  [/^invalid length (\d+).*$/, 'una lista tiene una longitud equivocada ($1)'],
  [/^number out of range$/, 'un número es demasiado grande'],
  [/^recursion limit exceeded$/, 'el texto está anidado en demasiados niveles'],
  [/^(?:expected|trailing|invalid|control character|key must|lone|unexpected) .*$/, 'el texto no es JSON válido'],
];

function why(reason: string): string {
  const [, text = reason, line, column] = /^(.*?)(?: at line (\d+) column (\d+))?$/.exec(reason) ?? [];
  const place = line ? ` (línea ${line}, columna ${column})` : '';
  const [, other] = /^invalid (?:type|value): (.+?)(?:, expected .*)?$/.exec(text) ?? [];
  if (other) return `en un lugar está ${verbatim(thing(other))} donde debe ir otra cosa${place}`;
  const [pattern, own = ''] = WHY.find(([pattern]) => pattern.test(text)) ?? [];
  return pattern ? verbatim(text.replace(pattern, own)) + place : reason;
}

const SCENE: Record<string, string> = { card: 'la tarjeta', 'second card': 'la segunda tarjeta', 'pair transform': 'la superposición del par de fotos', 'cross polarised': 'la indicación “con polarización cruzada”' };
const HOW: Record<string, string> = { removed: 'se quitó', changed: 'se cambió', added: 'se añadió' };
const GUIDE = ', or another shade guide was in use then';

/** What to do, behind what is wrong, or not: both are found as one, since a name between may hold the end of a sentence. */
export const thenOf = (remedies: readonly Row[]): Hole => [`(?: (?:${remedies.map(([text]) => text.replace(/[.*()]/g, '\\$&')).join('|')}))?`, (text) => text && ` ${engineWords(text.trim())}`];
export const withThen = (rows: readonly Row[]): Row[] => rows.map(([english, own]) => [`${english}{then}`, `${own}{then}`]);

/** Holes of these sentences. Names and reasons may hold anything, also the end of a sentence. */
export const caseHoles = (remedies: readonly Row[], faults: readonly string[]): Record<string, Hole> => ({
  name: ['.*?', verbatim],
  part: ['.+?', (text) => `“${verbatim(text)}”`],
  version: ['.+?', (text) => (text === 'unknown' ? 'versión desconocida' : `versión ${verbatim(text)}`)],
  wrong: ['.+?', wrong],
  why: ['.+?', why],
  /** A whole text of its own. */
  what: ['.+?', (text) => lower(engineWords(text))],
  fault: [`(?:${faults.join('|')}).*`, engineWords],
  where: ['The case|Photo \\d+', (text) => (text === 'The case' ? 'El caso' : text.replace('Photo', 'La foto'))],
  field: ['.+?', (text) => (text === 'its description' ? 'su descripción' : text.replace(/^its /, ''))],
  scene: ['.+?', (text) => SCENE[text] ?? text],
  how: [Object.keys(HOW).join('|'), (text) => HOW[text] ?? text],
  guide: ['.*?', (text) => (text === GUIDE ? ', o entonces se usaba otra guía de colores' : text)],
  then: thenOf(remedies),
});

export const removedRows: readonly Row[] = [
  ['a case file beyond 4 GiB was written', 'se escribió un archivo de caso de más de 4 GiB.'],
  ['a case file with too many parts was written', 'se escribió un archivo de caso con demasiadas partes.'],
  // What was taken out of a photo's file.
  ['position (GPS)', 'posición (GPS)'],
  ['serial numbers and unique marks', 'números de serie y marcas únicas'],
  ["maker's notes", 'notas del fabricante'],
  ['names of people and computers', 'nombres de personas y ordenadores'],
  ['remarks and descriptions', 'observaciones y descripciones'],
  ['thumbnail', 'miniatura'],
  ['XMP metadata', 'metadatos XMP'],
  ['other metadata', 'otros metadatos'],
  ['data behind the picture', 'datos detrás de la imagen'],
  ['damaged metadata', 'metadatos dañados'],
  // In place of a list or an object that only one of two readings has.
  ['1 items', '1 elemento'],
  ['{num} items', '{num} elementos'],
  ['1 members', '1 campo'],
  ['{num} members', '{num} campos'],
];
