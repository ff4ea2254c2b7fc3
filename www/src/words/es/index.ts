/**
 * Spanish; the reader is addressed as usted. One word for one thing:
 *
 * shade tab: muestra (de color) · shade guide: guía de colores · value: valor · chroma: croma · hue: tono
 * cervical / middle / incisal third: tercio cervical / medio / incisal · restoration: restauración
 * crown: corona · veneer: carilla · stain: tinte · glaze: glaseado · coat: capa · mix: mezcla
 * to paint: pintar · stroke: pincelada · feather: difuminar · firing: cocción · fired: cocido
 * swatch (fired test): probeta · strength (what a coat does): fuerza · pass: pasada · step: paso
 * grey card: tarjeta gris · grey step of a card: parche de gris · outline, region: contorno
 * reading: lectura · light check: control de luz · doubt: incertidumbre · number, figure: valor
 * target: objetivo · uneven, patchy: irregular · glare: reflejos · shine: brillo · tray: bandeja
 * try-in: prueba en boca · clinician: clínico · work: trabajo · cross-polarised: con polarización cruzada
 * case: caso · case file: archivo del caso, archivo de caso (any) · case version: versión de caso · part (of a file): parte
 * sender: quien envió el caso · reduced copy: copia reducida · checksum: suma de comprobación · metadata: metadatos
 * to keep (in a file): guardar · table (of colours): tabla · row: fila · column: columna · cell: celda · source: fuente
 *
 * What differs is the colour (el color), so differences are masculine: "más claro, menos croma".
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
