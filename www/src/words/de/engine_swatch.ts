/** What is wrong with swatches. */
import type { EngineTable } from '../engine';
import { coats, list, quoted } from './engine_parts';

/** „The swatch of “umber” (tab 3)“. */
const SWATCH = '^The swatch of (a mix|“.+?”)( \\(.+?\\))?';
const swatchOf = (name: string, note: string): string => `Die Brennprobe ${name === 'a mix' ? 'einer Mischung' : `von ${quoted(name)}`}${note}`;
/** Plain numbers of coats, as the engine prints them. */
const plain = (n: string): string => coats(n.replace(/\.0+$/, ''));

export const swatch: EngineTable = [
  [new RegExp(`${SWATCH} names no stain\\.$`), (name, note) => `${swatchOf(name, note)} nennt keine Malfarbe.`],
  ['Say which stain was painted.', 'Geben Sie an, welche Malfarbe aufgetragen wurde.'],
  [new RegExp(`${SWATCH} has shares that sum to (\\S+), not to 1\\.$`), (name, note, sum) => `${swatchOf(name, note)} hat Anteile, die zusammen ${sum} ergeben, nicht 1.`],
  ['Correct the shares by volume.', 'Berichtigen Sie die Volumenanteile.'],
  [new RegExp(`${SWATCH} has (\\S+) coats\\.$`), (name, note, n) => `${swatchOf(name, note)} hat ${plain(n)}.`],
  ['Give the coats that were painted and fired, more than 0 and at most 12.', 'Geben Sie die aufgetragenen und gebrannten Schichten an, mehr als 0 und höchstens 12.'],
  [new RegExp(`${SWATCH} has a doubt that is no number between 0 and 20\\.$`), (name, note) => `${swatchOf(name, note)} hat eine Unsicherheit, die keine Zahl zwischen 0 und 20 ist.`],
  ['Correct it or leave it out.', 'Berichtigen Sie sie, oder lassen Sie sie weg.'],
  [new RegExp(`${SWATCH}: its (base|result), (L\\* \\S+, a\\* \\S+, b\\* \\S+), is no colour of a dental ceramic\\.$`), (name, note, what, lab) => `${swatchOf(name, note)}: ${what === 'base' ? 'Die Basis' : 'Das Ergebnis'}, ${lab}, ist keine Farbe einer Dentalkeramik.`],
  ['Check the reading and the card in its photo, or the typed numbers.', 'Prüfen Sie die Messung und die Karte in ihrem Foto, oder die eingegebenen Zahlen.'],
  [/^(“.+” and “.+”) are taken for two stains\.$/, (names) => `${list(names)} gelten als zwei Malfarben.`],
  ['Write the name in one way if they are the same jar.', 'Schreiben Sie den Namen einheitlich, wenn es dasselbe Töpfchen ist.'],
  [/^“(.+)” has no swatch that can be used, so no plan uses it\.$/, '„$1“ hat keine brauchbare Brennprobe, deshalb verwendet kein Plan die Malfarbe.'],
  ['Fire it on a test tab, one and two coats, and read before and after.', 'Brennen Sie sie auf ein Probestück, eine und zwei Schichten, und messen Sie vorher und nachher.'],
  [/^“(.+)” changes its swatches by ΔE00 (\S+) at most, hardly more than the readings' own uncertainty\.$/, '„$1“ verändert die Brennproben um höchstens ΔE00 $2, kaum mehr als die Messunsicherheit.'],
  ['Fire two or three coats, so that its effect stands out.', 'Brennen Sie zwei oder drei Schichten, damit die Wirkung sich abhebt.'],
  [/^“(.+)” has one swatch only;$/, '„$1“ hat nur eine Brennprobe;'],
  ['how it builds up in coats leans on what stains usually do.', 'wie sie sich in Schichten aufbaut, ist nach dem Üblichen bei Malfarben angenommen.'],
  ['Fire a second tab with twice the coats.', 'Brennen Sie ein zweites Probestück mit doppelt so vielen Schichten.'],
  [/^All swatches of “(.+)” have the same number of coats\.$/, 'Alle Brennproben von „$1“ haben gleich viele Schichten.'],
  ['Add one with another number of coats, so that building up is known.', 'Fügen Sie eine mit anderer Schichtzahl hinzu, damit der Aufbau bekannt wird.'],
  [/^A swatch of “(.+)” got lighter, though its others get darker\.$/, 'Eine Brennprobe von „$1“ wurde heller, obwohl die anderen dunkler werden.'],
  ['Look at its photos again: base and result may be exchanged, or the light differed.', 'Sehen Sie sich ihre Fotos noch einmal an: Basis und Ergebnis sind vielleicht vertauscht, oder das Licht war verschieden.'],
  ['It is not taken as a stain that lightens.', 'Sie gilt nicht als aufhellende Malfarbe.'],
  [/^A swatch of “(.+)” \((\S+) coats\) is ΔE00 (\S+) from what its others predict\.$/, (name, n, by) => `Eine Brennprobe von „${name}“ (${plain(n)}) liegt ΔE00 ${by} neben dem, was die anderen vorhersagen.`],
  ['Look at its photos again, or fire it again;', 'Sehen Sie sich ihre Fotos noch einmal an, oder brennen Sie neu;'],
  ['until then the strengths are a compromise.', 'bis dahin sind die Stärken ein Kompromiss.'],
  [/^“(.+)”: (\S+) coats changed the base less than (\S+) did\.$/, (name, more, less) => `„${name}“: ${plain(more)} ${plain(more).endsWith('en') ? 'veränderten' : 'veränderte'} die Basis weniger als ${less.replace(/\.0+$/, '')}.`],
  ['Look whether the two were exchanged, or fire them again.', 'Sehen Sie nach, ob beide vertauscht wurden, oder brennen Sie sie neu.'],
];
