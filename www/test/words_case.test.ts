import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { ENGLISH, language, type Language } from '../src/words';
import * as german from '../src/words/de';
import { engineWords } from '../src/words/engine';
import * as spanish from '../src/words/es';

const GERMAN: Language = { tag: 'de', words: german.words, engine: german.engine, decimal: ',' };
const SPANISH: Language = { tag: 'es', words: spanish.words, engine: spanish.engine, decimal: ',' };
afterAll(() => void (language.value = ENGLISH));

/** As people read it; what keeps the points of names and versions is not seen. */
const say = (as: Language, text: string): string => {
  language.value = as;
  return engineWords(text).replaceAll('\u2060', '');
};

const RUST = new URL('../../src/', import.meta.url);
const code = ['case', 'photo/scrub', 'engine/case', 'web/case']
  .flatMap((dir) => readdirSync(new URL(`${dir}/`, RUST), { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.rs')).map((f) => readFileSync(new URL(`${dir}/${f.replaceAll('\\', '/')}`, RUST), 'utf8')))
  .map((text) => text.split('#[cfg(test)]')[0]!.replace(/^\s*\/\/.*$/gm, ''))
  .join('\n');
const texts = (around: RegExp): string[] => [...new Set([...code.matchAll(around)].map(([, text]) => text!.replace(/\\\n\s*/g, '').replaceAll('\\"', '"')))];
const sentences = texts(/"((?:[^"\\]|\\[\s\S])*)"/g).filter((text) => /\s\S+.*([.;]|: \{error\}| was written)$/.test(text));

const SENDER = 'Ask the sender to save and send the case once more.';
/** What stands in the blanks, by what stands before or behind them in the sentence. */
const FILLINGS: readonly (readonly [RegExp, ...string[]])[] = [
  [/“\{[^}]*\}” in the case was left out/, 'Foto 1. neu.jpg', 'The file is not a picture, or its beginning is damaged. Choose a JPEG, PNG, TIFF or WebP photo.'],
  [/^\{[^}]*\} in the case file could not be read/, 'case.json', 'missing field `id`'],
  [/^The case cannot be:/, 'the checksum of a photo is none'],
  [/^\{what\} has something/, 'Photo 3', 'its “role”'],
  [/^The kept numbers/, '0.4.0', '0.5.1'],
  [/^The scene's/, 'pair transform'],
  [/^The region/, 'tab-3.5', 'removed'],
  [/^Scene and program version/, ', or another shade guide was in use then'],
  [/^The photo|^the bytes of/, 'Foto 1. neu.jpg'],
  [/^The \{\} file is damaged/, 'JPEG'],
  [/^The table has (no|two) columns? for/, 'cervical L*', 'name, L* (1.5), a*'],
  [/^The table holds/, 'device colours'],
  [/^The table could not be taken apart/, 'record 1'],
  [/^Row \{[^}]*\}: \{[^}]*\}/, '3', 'L*', '112.5'],
  [/^Row .*(“\{| no number)/, '3', 'A 2. x'],
  [/^No colours are written/, 'The card is almost black in the photo, so its colour is mostly noise. Take the photo again with more light or a longer exposure.'],
  [/^The case file is damaged/, 'photos/2.jpg'],
  [/^The case file holds|^\{[^}]*\} is missing/, 'photos/2.jpg'],
  [/^\{[^}]*\} in the case file is not what/, 'photos/2.jpg', 'manifest.json'],
  [/^\{[^}]*\} in the case file/, 'photos/2.jpg', '600', '512'],
  [/./, '600', '512'],
];
const filled = (template: string): string => (FILLINGS.find(([head]) => head.test(template))!.slice(1) as string[]).reduce((text, value) => text.replace(/\{[^}]*\}/, () => value), template);

const ENGLISH_WORD = /\b(the|of|is|are|and|with|its?|not|this|that|which|or|case|file|sender|photos?|part|ask|open|longer|than|most|were|field|missing|expected|metadata|notes?|names)\b/i;
const untold = (all: readonly string[]): string[] =>
  [GERMAN, SPANISH].flatMap((as) => all.filter((text) => say(as, text) === text || ENGLISH_WORD.test(say(as, text).replace(/„[^“]*“|“[^”]*”/g, ''))).map((text) => `${text} → ${say(as, text)}`));

describe('what is said of a case', () => {
  it('is told whole, with blanks filled, with and without what to do', () => {
    const all = sentences.map(filled);
    expect(all.length).toBeGreaterThan(55);
    expect(all.filter((text) => text.includes('{'))).toEqual([]);
    expect(untold(all)).toEqual([]);
    const followed = (heads: RegExp, remedy: string) => all.filter((text) => heads.test(text)).map((text) => `${text} ${remedy}`);
    const errors = [...followed(/^(The case|The photo|This)|in the case file/, SENDER), ...followed(/^(Row \d|The (table|CGATS|tab|file) )/, 'Export it once more.')];
    expect(errors.length).toBeGreaterThan(40);
    expect(untold(errors)).toEqual([]);
  });

  it('says what a case cannot be, and what was removed', () => {
    const long = texts(/\bshort\([^"]*?"([^"{]+)"/g).map((what) => `${what} is longer than 40 characters`);
    const many = texts(/\bfew\([^"]*?"([^"{]+)"/g).map((what) => `it has 600 ${what}, of 500 at most`);
    const others = texts(/wrong\(\s*"([^"]+)"/g);
    expect([long.length, many.length, others.length].map((n, i) => n >= [10, 7, 5][i]!)).toEqual([true, true, true]);
    const guide = 'The shade guide names “A2” twice';
    const all = [...long, ...many, ...others, guide, 'a point lies farther than 1000000 px from its photo'];
    expect(untold(all.flatMap((what) => [`The case cannot be: ${what}. ${SENDER}`, `The case cannot be written: The case cannot be: ${what}. Correct or remove what is named, then save again.`]))).toEqual([]);
    const removed = texts(/pub const [A-Z]+: &str = "([a-zA-Z' ()]+)";/g).filter((text) => /[a-z]/.test(text) && !/\./.test(text));
    expect(removed.length).toBe(10);
    expect(untold(removed)).toEqual([]);
  });

  it('comes as people say it', () => {
    const said = (text: string) => [say(GERMAN, text), say(SPANISH, text)];
    expect(said(`photos/2.jpg in the case file is not what was written: its checksum in manifest.json is another. Do not rely on this file. ${SENDER}`)).toEqual([
      '„photos/2.jpg“ in der Falldatei stimmt nicht mit dem überein, was geschrieben wurde: Die Prüfsumme in „manifest.json“ ist eine andere. Verlassen Sie sich nicht auf diese Datei. Bitten Sie den Absender, den Fall noch einmal zu speichern und zu senden.',
      '“photos/2.jpg” del archivo del caso no es lo que se escribió: su suma de comprobación en “manifest.json” es otra. No se fíe de este archivo. Pida a quien envió el caso que lo guarde y lo envíe una vez más.',
    ]);
    expect(said(`The photo “Zahn 1. neu 2.1.jpg” is missing in the case file. ${SENDER}`)).toEqual([
      'Das Foto „Zahn 1. neu 2.1.jpg“ fehlt in der Falldatei. Bitten Sie den Absender, den Fall noch einmal zu speichern und zu senden.',
      'Falta la foto “Zahn 1. neu 2.1.jpg” en el archivo del caso. Pida a quien envió el caso que lo guarde y lo envíe una vez más.',
    ]);
    expect(said('The photo “a.jpg” in the case was left out: This is a PDF document, not a photo that is read here. Save it as JPEG, PNG, 16-bit TIFF or WebP and open that. Ask the sender for the photo itself.')).toEqual([
      'Das Foto „a.jpg“ im Fall wurde weggelassen: Das ist ein PDF-Dokument, kein Foto, das hier gelesen wird. Speichern Sie sie als JPEG, PNG, 16-Bit-TIFF oder WebP, und öffnen Sie das. Bitten Sie den Absender um das Foto selbst.',
      expect.stringMatching(/^La foto “a\.jpg” del caso se ha omitido: es un documento PDF, .* Pida la foto misma a quien envió el caso\.$/),
    ]);
    expect(said('The kept numbers were made by version 0.4.0 of the program, these by 0.5.1.')).toEqual([
      'Die gespeicherten Zahlen stammen von Version 0.4.0 des Programms, die jetzigen von Version 0.5.1.',
      'Los valores guardados son de la versión 0.4.0 del programa; los actuales, de la versión 0.5.1.',
    ]);
    expect(said('The region “tooth-11” was added after the reading.')).toEqual(['Der Bereich „tooth-11“ wurde nach der Messung hinzugefügt.', 'El contorno “tooth-11” se añadió después de la lectura.']);
    expect(said('The case has something that this version does not understand: its “work” is left out. Open the case with the newest version of the program to see it.')).toEqual([
      'Der Fall enthält etwas, das diese Version nicht versteht: „work“ ist weggelassen. Öffnen Sie den Fall mit der neuesten Version des Programms, um es zu sehen.',
      'El caso tiene algo que esta versión no entiende: se omite “work”. Abra el caso con la versión más nueva del programa para verlo.',
    ]);
    expect(said('The case cannot be written: The case cannot be: it has 501 notes on a photo, of 500 at most. Correct or remove what is named, then save again.')).toEqual([
      'Der Fall lässt sich nicht speichern: Er hat 501 Notizen zu einem Foto, höchstens 500 sind möglich. Berichtigen oder entfernen Sie das Genannte, und speichern Sie dann noch einmal.',
      'El caso no se puede guardar: tiene 501 notas en una foto; se admiten 500 como máximo. Corrija o quite lo que se nombra y guarde otra vez.',
    ]);
    expect(said('Something went wrong inside Tabside: no step leads on from case version 2. Please report it with the steps that led here.')[0]).toBe(
      'In Tabside ist etwas schiefgegangen: von Fallversion 2 führt kein Schritt weiter. Bitte melden Sie es mit den Schritten, die dazu führten.',
    );
    expect([...said('1 items'), ...said('3 members')]).toEqual(['1 Eintrag', '1 elemento', '3 Felder', '3 campos']);
  });

  it('says why a part cannot be read, as the parser does', () => {
    const whys = [
      'it is missing', 'it is no object', 'EOF while parsing a value at line 1 column 0', 'expected `,` or `}` at line 3 column 7', 'trailing characters at line 1 column 9', 'number out of range at line 1 column 6',
      'invalid type: string "x. y", expected f64', 'invalid type: null, expected a string', 'invalid value: integer `-1`, expected u32', 'invalid length 2, expected an array of length 3',
      'unknown variant `tilted`, expected one of `plain`, `cross-polarised-partner`', 'unknown field `x`, expected `id`', 'duplicate field `id`', 'missing field `role`', 'unknown variant `cut off here',
    ];
    expect(untold(whys.map((why) => `case.json in the case file could not be read: ${why}. ${SENDER}`))).toEqual([]);
    expect(say(GERMAN, 'case.json in the case file could not be read: invalid type: string "x. y", expected f64.')).toBe('„case.json“ in der Falldatei ließ sich nicht lesen: An einer Stelle steht der Text „x. y“, wo etwas anderes stehen muss.');
    expect(say(SPANISH, 'case.json in the case file could not be read: EOF while parsing a value at line 1 column 0.')).toBe('No se pudo leer “case.json” del archivo del caso: el texto se interrumpe (línea 1, columna 0).');
  });
});
