/** What is said about tables of colours: CSV and CGATS files. */
import { engineWords, type EngineTable } from '../engine';
import { saying, verbatim } from './engine_case_parts';

const REMEDIES: readonly (readonly [string, string])[] = [
  ['A table has one row per tab and the columns name, L*, a* and b*.', 'Eine Tabelle hat eine Zeile je Farbmuster und die Spalten Name, L*, a* und b*.'],
  ['A guide has at most 500 tabs with four colours each; keep the rows that are needed.', 'Eine Farbskala hat höchstens 500 Farbmuster mit je vier Farben; behalten Sie nur die benötigten Zeilen.'],
  ['Keep the rows that are needed.', 'Behalten Sie nur die benötigten Zeilen.'],
  ['Give CSV in UTF-8, CGATS text, or a guide that this program saved.', 'Verwenden Sie CSV in UTF-8, CGATS-Text oder eine Farbskala, die dieses Programm gespeichert hat.'],
  ['Add a row, or columns, for the whole tab.', 'Fügen Sie eine Zeile oder Spalten für das ganze Farbmuster hinzu.'],
  ['Export them for D65 and the 2° observer.', 'Exportieren Sie sie für D65 und den 2°-Beobachter.'],
  ['Export the colours for D65 alone.', 'Exportieren Sie die Farben nur für D65.'],
  ['Export the colours as L*a*b* for D65 and the 2° observer.', 'Exportieren Sie die Farben als L*a*b* für D65 und den 2°-Beobachter.'],
  ['Export it once more.', 'Exportieren Sie sie noch einmal.'],
  ['Each row needs a value for every field; export it once more.', 'Jede Zeile braucht einen Wert für jedes Feld; exportieren Sie die Datei noch einmal.'],
  ['Save it as CSV once more.', 'Speichern Sie sie noch einmal als CSV.'],
  ['Numbers with a decimal comma need semicolons or tabs between the cells, or quotes.', 'Zahlen mit Dezimalkomma brauchen Semikolons oder Tabulatoren zwischen den Zellen oder Anführungszeichen.'],
  ['Keep one of them.', 'Behalten Sie eine davon.'],
  ['Make a table of each.', 'Machen Sie für beide je eine eigene Tabelle.'],
  ['A zone is cervical, middle, incisal or whole.', 'Eine Zone ist „zervikal“, „Mitte“, „inzisal“ oder „ganz“.'],
  ['A source is measured or published.', 'Eine Quelle ist „gemessen“ oder „veröffentlicht“.'],
  ['L* lies between 0 and 110, a* and b* between -105 and 105.', 'L* liegt zwischen 0 und 110, a* und b* zwischen -105 und 105.'],
  ['A colour needs all three of L*, a* and b*.', 'Eine Farbe braucht L*, a* und b*, alle drei.'],
  ['Shorten it.', 'Kürzen Sie ihn.'],
  ["Write the tab's name itself.", 'Schreiben Sie nur den Namen des Farbmusters.'],
  ['Each tab needs a name of its own, and one colour for each zone.', 'Jedes Farbmuster braucht einen eigenen Namen und für jede Zone eine Farbe.'],
  ['Write numbers like 79.6 or 79,6.', verbatim('Schreiben Sie Zahlen wie 79.6 oder 79,6.')],
  ['Write all of them in one way.', 'Schreiben Sie alle auf dieselbe Art.'],
  ['The light checks say why; take the photo again.', 'Die Lichtprüfungen sagen, warum; nehmen Sie das Foto neu auf.'],
];
const said = saying(REMEDIES.map(([english]) => english));

const ZONES: Record<string, string> = { cervical: 'zervikal', middle: 'Mitte', incisal: 'inzisal', whole: 'ganz' };
/** „cervical L*“, „the name“. */
const column = (text: string): string => (text === 'the name' ? 'den Namen' : text.replace(/^\w+(?= )/, (zone) => ZONES[zone] ?? zone));
const OTHER: Record<string, string> = { XYZ: 'XYZ', spectra: 'Spektren', 'device colours': 'Gerätefarben' };

export const tables: EngineTable = [
  said('The file is no text table.', 'Die Datei ist keine Texttabelle.'),
  said('The table is empty.', 'Die Tabelle ist leer.'),
  said('The table has {} bytes; at most {} are read.', 'Die Tabelle hat $1 Byte; höchstens $2 werden gelesen.'),
  said('The table has more than {} rows.', 'Die Tabelle hat mehr als $1 Zeilen.'),
  said('The table has more than {} columns.', 'Die Tabelle hat mehr als $1 Spalten.'),
  said('The table has no row with the colour of a tab.', 'Die Tabelle hat keine Zeile mit der Farbe eines Farbmusters.'),
  said('The table has two columns for {}.', (what) => `Die Tabelle hat zwei Spalten für ${column(what)}.`),
  said('The table has no column for {}; its columns are: {}.', (what, heads) => `Die Tabelle hat keine Spalte für ${column(what)}; ihre Spalten sind: ${verbatim(heads)}.`),
  said('The table holds {}, no L*a*b*.', (other) => `Die Tabelle enthält ${OTHER[other] ?? other}, kein L*a*b*.`),
  said('The table could not be taken apart: {}.', 'Die Tabelle ließ sich nicht zerlegen: $1.'),
  said('The CGATS file names no fields before its data.', 'Die CGATS-Datei nennt vor ihren Daten keine Felder.'),
  said('The CGATS file says another number of fields than it names.', 'Die CGATS-Datei gibt eine andere Zahl von Feldern an, als sie nennt.'),
  said('The CGATS file breaks off or is uneven in row {}.', 'Die CGATS-Datei bricht in Zeile $1 ab oder ist dort unvollständig.'),
  said('The file says both D50 and D65.', 'Die Datei nennt sowohl D50 als auch D65.'),
  said('The colours stand for the 10° observer.', 'Die Farben gelten für den 10°-Beobachter.'),
  said('The colours stand for the light “{}”.', 'Die Farben gelten für das Licht „$1“.'),
  said('The tab “{}” has neither the colour of the whole nor those of all three thirds.', 'Farbmuster „$1“ hat weder die Farbe des Ganzen noch die aller drei Drittel.'),
  // Row by row.
  said('Row {} has more cells than the first row names columns.', 'Zeile $1 hat mehr Zellen, als die erste Zeile Spalten nennt.'),
  said('Row {} has no name.', 'Zeile $1 hat keinen Namen.'),
  said('Row {} gives a colour of “{}” once more.', 'Zeile $1 gibt noch einmal eine Farbe von „$2“ an.'),
  said('Row {}: some colours are called measured, others published.', 'Zeile $1: Manche Farben heißen gemessen, andere veröffentlicht.'),
  said('Row {}: some numbers have a decimal point, others a decimal comma.', 'Zeile $1: Manche Zahlen haben einen Dezimalpunkt, andere ein Dezimalkomma.'),
  said('Row {}: the name is longer than {} characters.', 'Zeile $1: Der Name ist länger als $2 Zeichen.'),
  said('Row {}: the name “{}” begins like a formula of a spreadsheet.', 'Zeile $1: Der Name „$2“ beginnt wie eine Formel einer Tabellenkalkulation.'),
  said('Row {}: the name “{}” holds signs that belong to no name.', 'Zeile $1: Der Name „$2“ enthält Zeichen, die in keinen Namen gehören.'),
  said('Row {}: “{}” is no third of a tab.', 'Zeile $1: „$2“ ist kein Drittel eines Farbmusters.'),
  said('Row {}: “{}” is no source.', 'Zeile $1: „$2“ ist keine Quelle.'),
  said('Row {}: “{}” is no number.', 'Zeile $1: „$2“ ist keine Zahl.'),
  said('Row {}: {} is missing.', 'Zeile $1: $2 fehlt.'),
  said('Row {}: {} {} cannot be.', (row, axis, value) => `Zeile ${row}: ${axis} ${value} ist nicht möglich.`),
  // What was assumed.
  said('The colours stand for D50; they were adapted to D65 (Bradford).', 'Die Farben gelten für D50; sie wurden auf D65 umgerechnet (Bradford).'),
  said('The table does not say for which light its colours stand; they are taken as D65.', 'Die Tabelle sagt nicht, für welches Licht ihre Farben gelten; angenommen wird D65.'),
  said('The table does not say whether its colours were measured on your own tabs; they are taken for published averages.', 'Die Tabelle sagt nicht, ob ihre Farben an Ihren eigenen Farbmustern gemessen wurden; sie gelten als veröffentlichte Mittelwerte.'),
  said('A column “source” that says measured changes that.', 'Eine Spalte „Quelle“ mit dem Wort „gemessen“ ändert das.'),
  said('Rows of teeth and restorations were left out.', 'Zeilen von Zähnen und Restaurationen wurden weggelassen.'),
  said('Rows without a colour were left out.', 'Zeilen ohne Farbe wurden weggelassen.'),
  said('Only the first table of the file was read.', 'Nur die erste Tabelle der Datei wurde gelesen.'),
  said('Where only the thirds were given, the whole is the mean of their light.', 'Wo nur die Drittel angegeben waren, ist das Ganze der Mittelwert ihres Lichts.'),
  said('The colours carry a doubt of up to ΔE00 {}; as colours of a guide they are taken for exact.', (doubt) => `Die Farben haben eine Unsicherheit von bis zu ΔE00 ${doubt}; als Farben einer Farbskala gelten sie als genau.`),
  // Written.
  said('No colours are written: {}', (check) => `Es werden keine Farben geschrieben: ${engineWords(check)}`),
  said('There is no colour to write.', 'Es gibt keine Farbe zu schreiben.'),
  ...REMEDIES,
  // Remarks come joined in a guide's note, and are found there sentence by sentence.
  ['The colours stand for D50;', 'Die Farben gelten für D50;'],
  ['they were adapted to D65 (Bradford).', 'sie wurden auf D65 umgerechnet (Bradford).'],
  ['The table does not say for which light its colours stand;', 'Die Tabelle sagt nicht, für welches Licht ihre Farben gelten;'],
  ['they are taken as D65.', 'angenommen wird D65.'],
  ['The table does not say whether its colours were measured on your own tabs;', 'Die Tabelle sagt nicht, ob ihre Farben an Ihren eigenen Farbmustern gemessen wurden;'],
  ['they are taken for published averages.', 'sie gelten als veröffentlichte Mittelwerte.'],
  [/^The colours carry a doubt of up to ΔE00 (\S+);$/, 'Die Farben haben eine Unsicherheit von bis zu ΔE00 $1;'],
  ['as colours of a guide they are taken for exact.', 'als Farben einer Farbskala gelten sie als genau.'],
];
