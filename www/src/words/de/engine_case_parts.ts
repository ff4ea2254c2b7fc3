/** What the sentences about a case file are made of: what cannot be in it, why a part cannot be read, what was removed. */
import { engineWords, type EngineEntry, type EngineTable } from '../engine';
import { upper } from './grammar';

/** Versions and names of files keep their points: a word joiner, which is not seen, stands behind them. */
export const verbatim = (text: string): string => text.replace(/(\d)\.(?=\d)/g, '$1.\u2060');

const plain = (text: string): string => text.replace(/[.*+?^$()[\]{}|\\]/g, '\\$&');

/**
 * A text with its blanks, {}, as the engine has it; $1 is a blank word for word. What to do stands behind, or not:
 * both are found as one, since a name between may hold the end of a sentence.
 */
export const saying = (remedies: readonly string[]) => (english: string, own: string | ((...blanks: string[]) => string)): EngineEntry => {
  const pattern = new RegExp(`^${english.split('{}').map(plain).join('(.*?)')}(?: (${remedies.map(plain).join('|')}))?$`);
  return [pattern, (...groups) => {
    const [blanks, remedy] = [groups.slice(0, -1), groups.at(-1)];
    const text = typeof own === 'string' ? own.replace(/\$(\d)/g, (_, n: string) => verbatim(blanks[Number(n) - 1] ?? '')) : own(...blanks);
    return remedy ? `${text} ${engineWords(remedy)}` : text;
  }];
};

export const named = (text: string): string => `„${verbatim(text)}“`;

export const version = (text: string): string => (text === 'unknown' ? 'einer unbekannten Version' : `Version ${verbatim(text)}`);

/** Something in a file of a newer version: „Photo 3 has …: its “role” is left out“. */
export const leftOut = (what: string, part: string): string =>
  `${what === 'The case' ? 'Der Fall' : what.replace(/^Photo /, 'Foto ')} enthält etwas, das diese Version nicht versteht: ${part === 'its description' ? 'Die Beschreibung' : part.replace(/^its “(.+)”$/, '„$1“')} ist weggelassen.`;

const LONG: Record<string, string> = {
  'its label': 'seine Bezeichnung', 'its program version': 'seine Programmversion', 'its time': 'seine Zeitangabe', 'the id of a photo': 'die Kennung eines Fotos', 'the name of a photo': 'der Name eines Fotos',
  'a remark on what was removed': 'ein Vermerk über Entferntes', 'the id of a note': 'die Kennung einer Notiz', 'a note': 'eine Notiz', 'the id of a region': 'die Kennung eines Bereichs', 'the name of a region': 'der Name eines Bereichs',
};
const MANY: Record<string, string> = {
  photos: 'Fotos', 'entries of the page': 'Einträge der Seite', 'remarks on what was removed': 'Vermerke über Entferntes', 'notes on a photo': 'Notizen zu einem Foto', 'steps of a card': 'Stufen einer Karte',
  'regions on a photo': 'Bereiche auf einem Foto', 'points in one outline': 'Punkte in einem Umriss',
};
const WRONG: Record<string, string> = {
  'two of its photos have one id': 'zwei seiner Fotos haben dieselbe Kennung', 'two of its photos are one part of the file': 'zwei seiner Fotos sind derselbe Teil der Datei', 'a photo has no id': 'ein Foto hat keine Kennung',
  'a photo names a partner that is no cross-polarised photo of the case': 'ein Foto nennt einen Partner, der kein kreuzpolarisiertes Foto des Falls ist', 'the checksum of a photo is none': 'die Prüfsumme eines Fotos ist keine',
};

/** What a case cannot be; also what is wrong with its shade guide, whose sentence has lost its last point. */
export function wrong(what: string): string {
  const own = upper(
    WRONG[what] ??
      what
        .replace(/^(.+) is longer than (\d+) characters$/, (_, part: string, most: string) => `${LONG[part] ?? part} ist länger als ${most} Zeichen`)
        .replace(/^it has (\d+) (.+), of (\d+) at most$/, (_, n: string, many: string, most: string) => `er hat ${n} ${MANY[many] ?? many}, höchstens ${most} sind möglich`)
        .replace(/^a point lies farther than (\d+) px from its photo$/, 'ein Punkt liegt mehr als $1 px von seinem Foto entfernt'),
  );
  return own === upper(what) ? engineWords(`${what}.`).replace(/\.$/, '') : own;
}

/** What stands where something else should. */
const thing = (text: string): string =>
  text
    .replace(/^string "(.*)"$/, 'der Text „$1“')
    .replace(/^(?:integer|floating point) `(.+)`$/, (_, n: string) => `die Zahl ${n}`)
    .replace(/^boolean `(.+)`$/, '„$1“')
    .replace(/^null$/, '„null“')
    .replace(/^sequence$/, 'eine Liste')
    .replace(/^map$/, 'ein Objekt');

/** Why a text is not the data that it should be, as the parser says it; its end may be cut off. */
const WHY: readonly (readonly [RegExp, string])[] = [
  [/^it is missing$/, 'Der Teil fehlt'],
  [/^it is no object$/, 'Der Teil ist kein Objekt'],
  [/^EOF while parsing .*$/, 'Der Text bricht ab'],
  [/^missing field `([^`]*).*$/, 'Das Feld „$1“ fehlt'],
  [/^unknown field `([^`]*).*$/, 'Das Feld „$1“ ist unbekannt'],
  [/^duplicate field `([^`]*).*$/, 'Das Feld „$1“ steht zweimal darin'],
  [/^unknown variant `([^`]*).*$/, 'Das Wort „$1“ ist dort nicht möglich'],
  [/^invalid length (\d+).*$/, 'Eine Liste hat die falsche Länge ($1)'],
  [/^number out of range$/, 'Eine Zahl ist zu groß'],
  [/^recursion limit exceeded$/, 'Der Text ist zu tief verschachtelt'],
  [/^(?:expected|trailing|invalid|control character|key must|lone|unexpected) .*$/, 'Der Text ist kein gültiges JSON'],
];

export function why(reason: string): string {
  const [, text = reason, line, column] = /^(.*?)(?: at line (\d+) column (\d+))?$/.exec(reason) ?? [];
  const place = line ? ` (Zeile ${line}, Spalte ${column})` : '';
  const [, other] = /^invalid (?:type|value): (.+?)(?:, expected .*)?$/.exec(text) ?? [];
  if (other) return `An einer Stelle steht ${verbatim(thing(other))}, wo etwas anderes stehen muss${place}`;
  const [pattern, own = ''] = WHY.find(([pattern]) => pattern.test(text)) ?? [];
  return pattern ? verbatim(text.replace(pattern, own)) + place : reason;
}

/** What was taken out of a photo's file. */
export const removed: EngineTable = [
  ['position (GPS)', 'Standort (GPS)'],
  ['serial numbers and unique marks', 'Seriennummern und eindeutige Kennungen'],
  ["maker's notes", 'Notizen des Herstellers'],
  ['names of people and computers', 'Namen von Personen und Computern'],
  ['remarks and descriptions', 'Anmerkungen und Beschreibungen'],
  ['thumbnail', 'Vorschaubild'],
  ['XMP metadata', 'XMP-Metadaten'],
  ['other metadata', 'weitere Metadaten'],
  ['data behind the picture', 'Daten hinter dem Bild'],
  ['damaged metadata', 'beschädigte Metadaten'],
];

/** In place of a list or an object that only one of two readings has. */
export const items: EngineTable = [
  [/^(\d+) items$/, (n) => `${n} ${n === '1' ? 'Eintrag' : 'Einträge'}`],
  [/^(\d+) members$/, (n) => `${n} ${n === '1' ? 'Feld' : 'Felder'}`],
];
