/**
 * German. One word per thing, as a German practice and laboratory say it:
 *
 *   tooth Zahn · restoration Restauration · crown Krone · veneer Veneer · try-in Einprobe
 *   shade tab Farbmuster · shade guide Farbskala · grey card Graukarte · grey step Graustufe
 *   cervical/middle/incisal third zervikales/mittleres/inzisales Drittel · neck Zahnhals · edge Schneidekante
 *   value Helligkeit · chroma Chroma · hue Farbton · difference Unterschied · target Ziel
 *   reading Messung · doubt Unsicherheit · light check Lichtprüfung · evenness Gleichmäßigkeit · patchy fleckig
 *   glare Glanz · cross-polarised kreuzpolarisiert · outline Umriss · region Bereich · scene Szene
 *   stain Malfarbe · mix Mischung · coat Schicht · glaze Glasur · firing Brand · base Basis
 *   swatch Brennprobe (in tabs Proben) · book of swatches Probenbuch · strength Stärke · step Schritt · pass Durchgang
 *   work Arbeit · practice Übung · attempt Versuch · tray Ablage · note (pinned) Notiz · note (finding) Hinweis
 *   case Fall · case file Falldatei · case version Fallversion · part (of a file) Teil · sender Absender
 *   reduced copy verkleinerte Kopie · checksum Prüfsumme · metadata Metadaten · to keep (in a file) speichern · to keep (in the browser) aufbewahren
 *   table (of colours) Tabelle · row Zeile · column Spalte · cell Zelle · source Quelle · published average veröffentlichter Mittelwert
 *
 * People are addressed with Sie. Who decides is „zahnärztliche Hand“: it holds for everybody.
 */
import type { Words } from '../index';
import { app } from './app';
import { caseFile } from './case_file';
import { cases } from './cases';
import { clock } from './clock';
import { compare } from './compare';
import { edits, status } from './doing';
import { errors } from './errors';
import { evenness } from './evenness';
import { exports } from './exports';
import { flow } from './flow';
import { found } from './found';
import { help } from './help';
import { keys } from './keys';
import { modes } from './modes';
import { names } from './names';
import { notes } from './notes';
import { numbers } from './numbers';
import { offline } from './offline';
import { pair } from './pair';
import { passes, unfired } from './passes';
import { patient } from './patient';
import { plan } from './plan';
import { practice } from './practice';
import { privacy } from './privacy';
import { retake } from './retake';
import { settings } from './settings';
import { shape } from './shape';
import { sheet } from './sheet';
import { stage } from './stage';
import { swatches } from './swatches';
import { tabs } from './tabs';
import { tour } from './tour';
import { tray } from './tray';
import { trust } from './trust';
import { typed } from './typed';

export { engine } from './engine';

export const words: Words = { ...app, caseFile, cases, clock, compare, edits, errors, evenness, exports, flow, found, help, keys, modes, names, notes, numbers, offline, pair, passes, patient, plan, practice, privacy, retake, settings, shape, sheet, stage, status, swatches, tabs, tour, tray, trust, typed, unfired };
