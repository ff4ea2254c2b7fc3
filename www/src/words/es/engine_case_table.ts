/** What is said about tables of colours: CSV and CGATS files. */
import { engineWords } from '../engine';
import { thenOf, verbatim, withThen } from './engine_case_parts';
import { choice, tableOf, type Row } from './engine_parts';
import { lower } from './grammar';

const foundRows: readonly Row[] = [
  ['The file is no text table.', 'El archivo no es una tabla de texto.'],
  ['The table is empty.', 'La tabla está vacía.'],
  ['The table has {n} bytes; at most {n1} are read.', 'La tabla tiene {n} bytes; se leen {n1} como máximo.'],
  ['The table has more than {n} rows.', 'La tabla tiene más de {n} filas.'],
  ['The table has more than {n} columns.', 'La tabla tiene más de {n} columnas.'],
  ['The table has no row with the colour of a tab.', 'La tabla no tiene ninguna fila con el color de una muestra.'],
  ['The table has two columns for {column}.', 'La tabla tiene dos columnas para {column}.'],
  ['The table has no column for {column}; its columns are: {cell}.', 'La tabla no tiene ninguna columna para {column}; sus columnas son: {cell}.'],
  ['The table holds {other}, no L*a*b*.', 'La tabla contiene {other}, no L*a*b*.'],
  ['The table could not be taken apart: {cell}.', 'La tabla no se pudo descomponer: {cell}.'],
  ['The CGATS file names no fields before its data.', 'El archivo CGATS no nombra ningún campo antes de sus datos.'],
  ['The CGATS file says another number of fields than it names.', 'El archivo CGATS indica otro número de campos que los que nombra.'],
  ['The CGATS file breaks off or is uneven in row {n}.', 'El archivo CGATS se interrumpe o está incompleto en la fila {n}.'],
  ['The file says both D50 and D65.', 'El archivo dice tanto D50 como D65.'],
  ['The colours stand for the 10° observer.', 'Los colores están dados para el observador de 10°.'],
  ['The colours stand for the light “{cell}”.', 'Los colores están dados para la luz “{cell}”.'],
  ['The tab “{cell}” has neither the colour of the whole nor those of all three thirds.', 'La muestra “{cell}” no tiene ni el color del conjunto ni los de los tres tercios.'],
  // Row by row.
  ['Row {n} has more cells than the first row names columns.', 'La fila {n} tiene más celdas que columnas nombra la primera.'],
  ['Row {n} has no name.', 'La fila {n} no tiene nombre.'],
  ['Row {n} gives a colour of “{cell}” once more.', 'La fila {n} da otra vez un color de “{cell}”.'],
  ['Row {n}: some colours are called measured, others published.', 'Fila {n}: unos colores figuran como medidos, otros como publicados.'],
  ['Row {n}: some numbers have a decimal point, others a decimal comma.', 'Fila {n}: unos números tienen punto decimal, otros coma decimal.'],
  ['Row {n}: the name is longer than {n1} characters.', 'Fila {n}: el nombre tiene más de {n1} caracteres.'],
  ['Row {n}: the name “{cell}” begins like a formula of a spreadsheet.', 'Fila {n}: el nombre “{cell}” empieza como una fórmula de una hoja de cálculo.'],
  ['Row {n}: the name “{cell}” holds signs that belong to no name.', 'Fila {n}: el nombre “{cell}” contiene signos que no son propios de un nombre.'],
  ['Row {n}: “{cell}” is no third of a tab.', 'Fila {n}: “{cell}” no es un tercio de una muestra.'],
  ['Row {n}: “{cell}” is no source.', 'Fila {n}: “{cell}” no es una fuente.'],
  ['Row {n}: “{cell}” is no number.', 'Fila {n}: “{cell}” no es un número.'],
  ['Row {n}: {n1} is missing.', 'Fila {n}: falta {n1}.'],
  ['Row {n}: {n1} {n2} cannot be.', 'Fila {n}: {n1} {n2} no es posible.'],
  // What was assumed.
  ['The colours stand for D50; they were adapted to D65 (Bradford).', 'Los colores están dados para D50; se adaptaron a D65 (Bradford).'],
  ['The table does not say for which light its colours stand; they are taken as D65.', 'La tabla no dice para qué luz están dados sus colores; se toman por D65.'],
  ['The table does not say whether its colours were measured on your own tabs; they are taken for published averages. A column “source” that says measured changes that.', 'La tabla no dice si sus colores se midieron en sus propias muestras; se toman por promedios publicados. Una columna “fuente” que diga “medido” lo cambia.'],
  ['Rows of teeth and restorations were left out.', 'Se omitieron filas de dientes y restauraciones.'],
  ['Rows without a colour were left out.', 'Se omitieron filas sin color.'],
  ['Only the first table of the file was read.', 'Solo se leyó la primera tabla del archivo.'],
  ['Where only the thirds were given, the whole is the mean of their light.', 'Donde solo se dieron los tercios, el conjunto es la media de su luz.'],
  ['The colours carry a doubt of up to ΔE00 {n}; as colours of a guide they are taken for exact.', 'Los colores tienen una incertidumbre de hasta ΔE00 {n}; como colores de una guía se toman por exactos.'],
  // Written.
  ['No colours are written: {check}', 'No se escribe ningún color: {check}'],
  ['There is no colour to write.', 'No hay ningún color que escribir.'],
];

const remedyRows: readonly Row[] = [
  ['A table has one row per tab and the columns name, L*, a* and b*.', 'Una tabla tiene una fila por muestra y las columnas nombre, L*, a* y b*.'],
  ['A guide has at most 500 tabs with four colours each; keep the rows that are needed.', 'Una guía tiene 500 muestras como máximo, con cuatro colores cada una; deje solo las filas necesarias.'],
  ['Keep the rows that are needed.', 'Deje solo las filas necesarias.'],
  ['Give CSV in UTF-8, CGATS text, or a guide that this program saved.', 'Use CSV en UTF-8, texto CGATS o una guía que haya guardado este programa.'],
  ['Add a row, or columns, for the whole tab.', 'Añada una fila o columnas para la muestra entera.'],
  ['Export them for D65 and the 2° observer.', 'Expórtelos para D65 y el observador de 2°.'],
  ['Export the colours for D65 alone.', 'Exporte los colores solo para D65.'],
  ['Export the colours as L*a*b* for D65 and the 2° observer.', 'Exporte los colores como L*a*b* para D65 y el observador de 2°.'],
  ['Export it once more.', 'Expórtelo otra vez.'],
  ['Each row needs a value for every field; export it once more.', 'Cada fila necesita un valor para cada campo; exporte el archivo otra vez.'],
  ['Save it as CSV once more.', 'Guárdela otra vez como CSV.'],
  ['Numbers with a decimal comma need semicolons or tabs between the cells, or quotes.', 'Los números con coma decimal necesitan puntos y coma o tabuladores entre las celdas, o comillas.'],
  ['Keep one of them.', 'Deje una de ellas.'],
  ['Make a table of each.', 'Haga una tabla para cada clase.'],
  ['A zone is cervical, middle, incisal or whole.', 'Una zona es “cervical”, “medio”, “incisal” o “entero”.'],
  ['A source is measured or published.', 'Una fuente es “medido” o “publicado”.'],
  ['L* lies between 0 and 110, a* and b* between -105 and 105.', 'L* está entre 0 y 110; a* y b*, entre -105 y 105.'],
  ['A colour needs all three of L*, a* and b*.', 'Un color necesita los tres: L*, a* y b*.'],
  ['Shorten it.', 'Acórtelo.'],
  ["Write the tab's name itself.", 'Escriba solo el nombre de la muestra.'],
  ['Each tab needs a name of its own, and one colour for each zone.', 'Cada muestra necesita un nombre propio y un color por zona.'],
  ['Write numbers like 79.6 or 79,6.', verbatim('Escriba los números como 79.6 o 79,6.')],
  ['Write all of them in one way.', 'Escríbalos todos de la misma forma.'],
  ['The light checks say why; take the photo again.', 'Los controles de luz dicen por qué; repita la foto.'],
];

export const caseTableRows: readonly Row[] = [...foundRows, ...remedyRows];

const ZONES: Record<string, string> = { cervical: 'cervical', middle: 'medio', incisal: 'incisal', whole: 'entero' };

export const tablesTable = [
  ...tableOf(withThen(foundRows), {
    cell: ['.*?', verbatim],
    column: ['[^;]+?', (text) => (text === 'the name' ? 'el nombre' : text.replace(/^(\w+) (.+)$/, (_, zone: string, axis: string) => `${axis} ${ZONES[zone] ?? zone}`))],
    other: choice({ XYZ: 'XYZ', spectra: 'espectros', 'device colours': 'colores de dispositivo' }),
    check: ['.+?', (text) => lower(engineWords(text))],
    then: thenOf(remedyRows),
  }),
  ...tableOf(remedyRows),
];
