/** What is said about a case file: reading, writing and verifying it. Names and versions keep their points. */
import { engineWords, type EngineTable } from '../engine';
import { items, leftOut, named, removed, saying, verbatim, version, why, wrong } from './engine_case_parts';

const REMEDIES: readonly (readonly [string, string])[] = [
  ['Ask the sender to save and send the case once more.', 'Bitten Sie den Absender, den Fall noch einmal zu speichern und zu senden.'],
  ['Copy it again, or ask the sender to save and send the case once more.', 'Kopieren Sie die Datei neu, oder bitten Sie den Absender, den Fall noch einmal zu speichern und zu senden.'],
  ['Open only case files that this program wrote; ask the sender for the case as it was saved.', 'Öffnen Sie nur Falldateien, die dieses Programm geschrieben hat; bitten Sie den Absender um den Fall, wie er gespeichert wurde.'],
  ['Choose a .tabside file; photos are opened as photos.', 'Wählen Sie eine .tabside-Datei; Fotos werden als Fotos geöffnet.'],
  ['Do not rely on this file. Ask the sender to save and send the case once more.', 'Verlassen Sie sich nicht auf diese Datei. Bitten Sie den Absender, den Fall noch einmal zu speichern und zu senden.'],
  ['Ask the sender for the photo itself.', 'Bitten Sie den Absender um das Foto selbst.'],
  ['Ask the sender for the case with its photos.', 'Bitten Sie den Absender um den Fall mit seinen Fotos.'],
  ['Update the program to work on it.', 'Aktualisieren Sie das Programm, um daran zu arbeiten.'],
  ['Update the program, then save the case.', 'Aktualisieren Sie das Programm, und speichern Sie dann den Fall.'],
  ['Nothing needs to be done; saving writes the newer form.', 'Sie brauchen nichts zu tun; beim Speichern entsteht die neuere Form.'],
  ['Open the case with the newest version of the program to see it.', 'Öffnen Sie den Fall mit der neuesten Version des Programms, um es zu sehen.'],
  ['Correct or remove what is named, then save again.', 'Berichtigen oder entfernen Sie das Genannte, und speichern Sie dann noch einmal.'],
  ['Leave photos out, or make two cases of it.', 'Lassen Sie Fotos weg, oder machen Sie zwei Fälle daraus.'],
  ['Make two cases of it.', 'Machen Sie zwei Fälle daraus.'],
  ['Ask the sender for the file once more.', 'Bitten Sie den Absender noch einmal um die Datei.'],
  ['Update the program, or ask the sender for a case without a passphrase.', 'Aktualisieren Sie das Programm, oder bitten Sie den Absender um einen Fall ohne Passphrase.'],
  ['Type it as the sender told it.', 'Geben Sie sie so ein, wie der Absender sie gesagt hat.'],
  ['Open the photo in an editor, save it anew without metadata, and use that file; or leave it out.', 'Öffnen Sie das Foto in einer Bildbearbeitung, speichern Sie es ohne Metadaten neu, und verwenden Sie diese Datei; oder lassen Sie das Foto weg.'],
];
const said = saying(REMEDIES.map(([english]) => english));

const SCENE: Record<string, string> = { card: 'Die Karte', 'second card': 'Die zweite Karte', 'pair transform': 'Die Ausrichtung des Fotopaars', 'cross polarised': 'Die Angabe „kreuzpolarisiert“' };
const HOW: Record<string, string> = { removed: 'entfernt', changed: 'geändert', added: 'hinzugefügt' };

export const cases: EngineTable = [
  // What is wrong with the file. Its photos before its parts, whose names are just a blank.
  said('This is not a case file, or its beginning is damaged.', 'Das ist keine Falldatei, oder ihr Anfang ist beschädigt.'),
  said('The file is empty (0 bytes).', 'Die Datei ist leer (0 Byte).'),
  said('The case file is damaged, or it was cut off before its end.', 'Die Falldatei ist beschädigt, oder sie wurde vor ihrem Ende abgeschnitten.'),
  said('The case file is damaged: {} does not unpack to what was packed.', 'Die Falldatei ist beschädigt: „$1“ ergibt ausgepackt nicht, was gepackt wurde.'),
  said('The case file has {} bytes; at most {} are read.', 'Die Falldatei hat $1 Byte; höchstens $2 werden gelesen.'),
  said('The case file says that it has {} parts or more; at most {} are read.', 'Die Falldatei gibt an, $1 Teile oder mehr zu haben; höchstens $2 werden gelesen.'),
  said('The parts of the case file unpack to more than {} bytes.', 'Die Teile der Falldatei sind ausgepackt größer als $1 Byte.'),
  said('The case file holds “{}”, which is no part of a case.', 'Die Falldatei enthält „$1“; das ist kein Teil eines Falls.'),
  said('The case file holds {}, which belongs to no photo of the case.', 'Die Falldatei enthält „$1“; das gehört zu keinem Foto des Falls.'),
  said('The case file holds {} twice.', 'Die Falldatei enthält „$1“ zweimal.'),
  said('The case file does not say of which version it is.', 'Die Falldatei gibt nicht an, von welcher Version sie ist.'),
  said('The photo “{}” is missing in the case file.', 'Das Foto „$1“ fehlt in der Falldatei.'),
  said('The photo “{}” is not in the case file.', 'Das Foto „$1“ ist nicht in der Falldatei.'),
  said('The photo “{}” in the case was left out: {}', (name, error) => `Das Foto „${verbatim(name)}“ im Fall wurde weggelassen: ${engineWords(error)}`),
  said('{} is missing in the case file.', '„$1“ fehlt in der Falldatei.'),
  said('{} in the case file is not what was written: its checksum in {} is another.', '„$1“ in der Falldatei stimmt nicht mit dem überein, was geschrieben wurde: Die Prüfsumme in „$2“ ist eine andere.'),
  said('{} in the case file is packed or encrypted in a way that is not read.', '„$1“ in der Falldatei ist auf eine Art gepackt oder verschlüsselt, die nicht gelesen wird.'),
  said('{} in the case file unpacks to {} bytes; at most {} are read.', '„$1“ in der Falldatei hat ausgepackt $2 Byte; höchstens $3 werden gelesen.'),
  said('{} in the case file unpacks to more than {} times its size, as no part of a case does.', '„$1“ in der Falldatei wird beim Auspacken mehr als $2-mal so groß; das wird kein Teil eines Falls.'),
  said('{} in the case file is nested deeper than {} or holds more than {} values.', '„$1“ in der Falldatei ist tiefer als $2 Ebenen verschachtelt oder enthält mehr als $3 Werte.'),
  said('{} in the case file could not be read: {}.', (part, reason) => `${named(part)} in der Falldatei ließ sich nicht lesen: ${why(reason)}.`),
  // Saving.
  said('The case cannot be written: The case cannot be: {}.', (what) => `Der Fall lässt sich nicht speichern: ${wrong(what)}.`),
  said('The case cannot be written: {}', (error) => `Der Fall lässt sich nicht speichern: ${engineWords(error)}`),
  said('The case cannot be: {}.', (what) => `Der Fall ist so nicht möglich: ${wrong(what)}.`),
  said('The case has {} bytes of text; at most {} are written.', 'Der Fall hat $1 Byte Text; höchstens $2 werden geschrieben.'),
  said('The case would be larger than {} bytes or have more than {} parts.', 'Der Fall wäre größer als $1 Byte oder hätte mehr als $2 Teile.'),
  said("The photo's metadata is damaged, so that position and serial numbers cannot be removed from it for certain.", 'Die Metadaten des Fotos sind beschädigt, deshalb lassen sich Standort und Seriennummern nicht sicher daraus entfernen.'),
  // Older and newer files.
  said('This case was saved by a newer version of the program (case version {}). It is open for looking; it cannot be changed and saved here.', 'Dieser Fall wurde von einer neueren Version des Programms gespeichert (Fallversion $1). Er ist zum Ansehen geöffnet; ändern und speichern lässt er sich hier nicht.'),
  said('This case was saved in an older form (version {}) and was brought forward.', 'Dieser Fall war in einer älteren Form gespeichert (Version $1) und wurde in die heutige gebracht.'),
  said('{} has something that this version does not understand: {} is left out.', leftOut),
  said('This case is of version {}, of which this program understands only a part; writing it would lose the rest.', 'Dieser Fall ist von Version $1, von der dieses Programm nur einen Teil versteht; beim Speichern ginge der Rest verloren.'),
  // Measured again.
  said('The kept numbers were made by version {} of the program, these by {}.', (then, now) => `Die gespeicherten Zahlen stammen von ${version(then)} des Programms, die jetzigen von ${version(now)}.`),
  said("The scene's {} was changed after the reading.", (part) => `${SCENE[part] ?? named(part)} in der Szene wurde nach der Messung geändert.`),
  said('The region “{}” was {} after the reading.', (id, how) => `Der Bereich „${verbatim(id)}“ wurde nach der Messung ${HOW[how] ?? how}.`),
  said('Scene and program version are the same: the kept numbers were changed, or the photo is another{}.', (guide) => `Szene und Programmversion sind dieselben: Die gespeicherten Zahlen wurden geändert, oder das Foto ist ein anderes${guide === ', or another shade guide was in use then' ? ', oder damals war eine andere Farbskala in Gebrauch' : guide}.`),
  said('No reading of this photo was kept.', 'Von diesem Foto wurde keine Messung gespeichert.'),
  said('The photo, or its cross-polarised partner, is not in the case file.', 'Das Foto oder sein kreuzpolarisierter Partner ist nicht in der Falldatei.'),
  said('Only a reduced copy of the photo is in the case file; other numbers come from it.', 'In der Falldatei ist nur eine verkleinerte Kopie des Fotos; sie ergibt andere Zahlen.'),
  said('This is no encrypted case, or its beginning is damaged.', 'Das ist kein verschlüsselter Fall, oder sein Anfang ist beschädigt.'),
  said('This case was encrypted in a way that this version does not know.', 'Dieser Fall wurde auf eine Art verschlüsselt, die diese Version nicht kennt.'),
  said('The passphrase is another one, or the beginning of the file is damaged.', 'Die Passphrase ist eine andere, oder der Anfang der Datei ist beschädigt.'),
  said('The passphrase is right, but the file was changed or damaged after it was saved.', 'Die Passphrase stimmt, doch die Datei wurde nach dem Speichern verändert oder beschädigt.'),
  // Faults of the program.
  [/^Something went wrong inside Tabside: ((?:no step leads|the bytes of|it holds a number|a case file|no such photo|the photo was not|a light check has).*) Please report it with the steps that led here\.$/, (what) => `In Tabside ist etwas schiefgegangen: ${engineWords(what)} Bitte melden Sie es mit den Schritten, die dazu führten.`],
  said('no step leads on from case version {}.', 'von Fallversion $1 führt kein Schritt weiter.'),
  said('the bytes of “{}” are to be kept and were not given.', 'der Inhalt von „$1“ soll gespeichert werden und wurde nicht mitgegeben.'),
  said('it holds a number that is none.', 'Er enthält eine Zahl, die keine ist.'),
  said('no such photo in the case.', 'ein solches Foto ist nicht im Fall.'),
  said('the photo was not read.', 'das Foto wurde nicht gelesen.'),
  said('a light check has no word.', 'eine Lichtprüfung hat kein Wort.'),
  said('a case file beyond 4 GiB was written', 'eine Falldatei über 4 GiB wurde geschrieben.'),
  said('a case file with too many parts was written', 'eine Falldatei mit zu vielen Teilen wurde geschrieben.'),
  ...REMEDIES,
  ...removed,
  ...items,
];
