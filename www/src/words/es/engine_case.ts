/** What is said about a case file: reading, writing and verifying it. */
import { caseHoles, removedRows, withThen } from './engine_case_parts';
import { tableOf, type Row } from './engine_parts';

/** What is wrong; what to do about it may stand behind. A photo before a part, whose name is just a hole. */
const foundRows: readonly Row[] = [
  ['This is not a case file, or its beginning is damaged.', 'Esto no es un archivo de caso, o su comienzo está dañado.'],
  ['The file is empty (0 bytes).', 'El archivo está vacío (0 bytes).'],
  ['The case file is damaged, or it was cut off before its end.', 'El archivo del caso está dañado, o se cortó antes de su final.'],
  ['The case file is damaged: {part} does not unpack to what was packed.', 'El archivo del caso está dañado: {part} no da al desempaquetarse lo que se empaquetó.'],
  ['The case file has {n} bytes; at most {n1} are read.', 'El archivo del caso tiene {n} bytes; se leen {n1} como máximo.'],
  ['The case file says that it has {n} parts or more; at most {n1} are read.', 'El archivo del caso dice tener {n} partes o más; se leen {n1} como máximo.'],
  ['The parts of the case file unpack to more than {n} bytes.', 'Las partes del archivo del caso ocupan desempaquetadas más de {n} bytes.'],
  ['The case file holds “{name}”, which is no part of a case.', 'El archivo del caso contiene “{name}”, que no es parte de un caso.'],
  ['The case file holds {part}, which belongs to no photo of the case.', 'El archivo del caso contiene {part}, que no pertenece a ninguna foto del caso.'],
  ['The case file holds {part} twice.', 'El archivo del caso contiene {part} dos veces.'],
  ['The case file does not say of which version it is.', 'El archivo del caso no dice de qué versión es.'],
  ['The photo “{name}” is missing in the case file.', 'Falta la foto “{name}” en el archivo del caso.'],
  ['The photo “{name}” is not in the case file.', 'La foto “{name}” no está en el archivo del caso.'],
  ['The photo “{name}” in the case was left out: {what}', 'La foto “{name}” del caso se ha omitido: {what}'],
  ['{part} is missing in the case file.', 'Falta {part} en el archivo del caso.'],
  ['{part} in the case file is not what was written: its checksum in {part1} is another.', '{part} del archivo del caso no es lo que se escribió: su suma de comprobación en {part1} es otra.'],
  ['{part} in the case file is packed or encrypted in a way that is not read.', '{part} del archivo del caso está empaquetado o cifrado de un modo que no se lee.'],
  ['{part} in the case file unpacks to {n} bytes; at most {n1} are read.', '{part} del archivo del caso ocupa desempaquetado {n} bytes; se leen {n1} como máximo.'],
  ['{part} in the case file unpacks to more than {n} times its size, as no part of a case does.', '{part} del archivo del caso crece al desempaquetarse más de {n} veces, como no lo hace ninguna parte de un caso.'],
  ['{part} in the case file is nested deeper than {n} or holds more than {n1} values.', '{part} del archivo del caso está anidado en más de {n} niveles o contiene más de {n1} datos.'],
  ['{part} in the case file could not be read: {why}.', 'No se pudo leer {part} del archivo del caso: {why}.'],
  // Saving.
  ['The case cannot be written: The case cannot be: {wrong}.', 'El caso no se puede guardar: {wrong}.'],
  ['The case cannot be written: {what}', 'El caso no se puede guardar: {what}'],
  ['The case cannot be: {wrong}.', 'El caso no es posible así: {wrong}.'],
  ['The case has {n} bytes of text; at most {n1} are written.', 'El caso tiene {n} bytes de texto; se escriben {n1} como máximo.'],
  ['The case would be larger than {n} bytes or have more than {n1} parts.', 'El caso ocuparía más de {n} bytes o tendría más de {n1} partes.'],
  ["The photo's metadata is damaged, so that position and serial numbers cannot be removed from it for certain.", 'Los metadatos de la foto están dañados, así que no es seguro que se puedan quitar de ellos la posición y los números de serie.'],
  // Older and newer files.
  ['This case was saved by a newer version of the program (case version {n}). It is open for looking; it cannot be changed and saved here.', 'Este caso lo guardó una versión más nueva del programa (versión de caso {n}). Está abierto solo para verlo; aquí no se puede modificar ni guardar.'],
  ['This case was saved in an older form (version {n}) and was brought forward.', 'Este caso estaba guardado en una forma más antigua (versión {n}) y se ha pasado a la actual.'],
  ['{where} has something that this version does not understand: {field} is left out.', '{where} tiene algo que esta versión no entiende: se omite {field}.'],
  ['This case is of version {n}, of which this program understands only a part; writing it would lose the rest.', 'Este caso es de la versión {n}, de la que este programa solo entiende una parte; al guardarlo se perdería el resto.'],
  // Read again.
  ['The kept numbers were made by version {version} of the program, these by {version1}.', 'Los valores guardados son de la {version} del programa; los actuales, de la {version1}.'],
  ["The scene's {scene} was changed after the reading.", 'Después de la lectura se cambió {scene} en la escena.'],
  ['The region “{name}” was {how} after the reading.', 'El contorno “{name}” {how} después de la lectura.'],
  ['Scene and program version are the same: the kept numbers were changed, or the photo is another{guide}.', 'La escena y la versión del programa son las mismas: se cambiaron los valores guardados, o la foto es otra{guide}.'],
  ['No reading of this photo was kept.', 'No se guardó ninguna lectura de esta foto.'],
  ['The photo, or its cross-polarised partner, is not in the case file.', 'La foto, o su pareja con polarización cruzada, no está en el archivo del caso.'],
  ['Only a reduced copy of the photo is in the case file; other numbers come from it.', 'En el archivo del caso solo hay una copia reducida de la foto; da otros valores.'],
  // Faults of the program.
  ['no step leads on from case version {n}.', 'ningún paso sigue a la versión de caso {n}.'],
  ['the bytes of “{name}” are to be kept and were not given.', 'el contenido de “{name}” se debe guardar y no se ha dado.'],
  ['it holds a number that is none.', 'contiene un número que no lo es.'],
  ['no such photo in the case.', 'esa foto no está en el caso.'],
  ['a light check has no word.', 'un control de luz no tiene palabra.'],
  ['the photo was not read.', 'la foto no se leyó.'],
  ['This is no encrypted case, or its beginning is damaged.', 'Esto no es un caso cifrado, o su comienzo está dañado.'],
  ['This case was encrypted in a way that this version does not know.', 'Este caso se cifró de una manera que esta versión no conoce.'],
  ['The passphrase is another one, or the beginning of the file is damaged.', 'La frase de paso es otra, o el comienzo del archivo está dañado.'],
  ['The passphrase is right, but the file was changed or damaged after it was saved.', 'La frase de paso es correcta, pero el archivo se cambió o se dañó después de guardarlo.'],
];

const remedyRows: readonly Row[] = [
  ['Ask the sender to save and send the case once more.', 'Pida a quien envió el caso que lo guarde y lo envíe una vez más.'],
  ['Copy it again, or ask the sender to save and send the case once more.', 'Cópielo otra vez, o pida a quien envió el caso que lo guarde y lo envíe una vez más.'],
  ['Open only case files that this program wrote; ask the sender for the case as it was saved.', 'Abra solo archivos de caso que haya escrito este programa; pida a quien envió el caso el archivo tal como se guardó.'],
  ['Choose a .tabside file; photos are opened as photos.', 'Elija un archivo .tabside; las fotos se abren como fotos.'],
  ['Do not rely on this file. Ask the sender to save and send the case once more.', 'No se fíe de este archivo. Pida a quien envió el caso que lo guarde y lo envíe una vez más.'],
  ['Ask the sender for the photo itself.', 'Pida la foto misma a quien envió el caso.'],
  ['Ask the sender for the case with its photos.', 'Pida a quien envió el caso que lo envíe con sus fotos.'],
  ['Update the program to work on it.', 'Actualice el programa para trabajar en él.'],
  ['Update the program, then save the case.', 'Actualice el programa y guarde después el caso.'],
  ['Nothing needs to be done; saving writes the newer form.', 'No hace falta hacer nada; al guardarlo se escribe la forma nueva.'],
  ['Open the case with the newest version of the program to see it.', 'Abra el caso con la versión más nueva del programa para verlo.'],
  ['Correct or remove what is named, then save again.', 'Corrija o quite lo que se nombra y guarde otra vez.'],
  ['Leave photos out, or make two cases of it.', 'Omita fotos o haga dos casos de él.'],
  ['Make two cases of it.', 'Haga dos casos de él.'],
  ['Ask the sender for the file once more.', 'Pida de nuevo el archivo a quien lo envió.'],
  ['Update the program, or ask the sender for a case without a passphrase.', 'Actualice el programa o pida a quien envió el caso uno sin frase de paso.'],
  ['Type it as the sender told it.', 'Escríbala como se la dijo quien envió el caso.'],
  ['Open the photo in an editor, save it anew without metadata, and use that file; or leave it out.', 'Abra la foto en un editor, guárdela de nuevo sin metadatos y use ese archivo; o bien omita la foto.'],
];

export const caseRows: readonly Row[] = [...foundRows, ...remedyRows];

const FAULTS = ['no step leads on', 'the bytes of', 'it holds a number', 'a case file', 'no such photo', 'the photo was not', 'a light check has'];

const holes = caseHoles(remedyRows, FAULTS);
export const caseTable = [
  // Before the general one, which leaves what it quotes in English.
  ...tableOf([['Something went wrong inside Tabside: {fault} Please report it with the steps that led here.', 'Algo ha fallado dentro de Tabside: {fault} Comuníquelo, por favor, con los pasos que llevaron hasta aquí.']], holes),
  ...tableOf(withThen(foundRows), holes),
  ...tableOf([...remedyRows, ...removedRows]),
];
