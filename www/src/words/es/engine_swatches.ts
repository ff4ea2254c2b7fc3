/** What is wrong with swatches. */
import { choice, tableOf, type Row } from './engine_parts';

export const swatchRows: readonly Row[] = [
  ['{swatch} names no stain.', '{swatch} no nombra ningún tinte.'],
  ['Say which stain was painted.', 'Indique qué tinte se pintó.'],
  ['{swatch} has shares that sum to {n}, not to 1.', '{swatch} tiene proporciones que suman {n}, no 1.'],
  ['Correct the shares by volume.', 'Corrija las proporciones en volumen.'],
  ['{swatch} has {n} coats.', '{swatch} tiene {n} capas.'],
  ['Give the coats that were painted and fired, more than 0 and at most 12.', 'Indique las capas que se pintaron y cocieron, más de 0 y como máximo 12.'],
  ['{swatch} has a doubt that is no number between 0 and 20.', '{swatch} tiene una incertidumbre que no es un número entre 0 y 20.'],
  ['Correct it or leave it out.', 'Corríjala u omítala.'],
  ['{swatch}: its {what}, L* {n}, a* {n1}, b* {n2}, is no colour of a dental ceramic.', '{swatch}: {what}, L* {n}, a* {n1}, b* {n2}, no es un color de una cerámica dental.'],
  ['Check the reading and the card in its photo, or the typed numbers.', 'Revise la lectura y la tarjeta de su foto, o los números escritos.'],
  ['“{q}” and “{q1}” are taken for two stains.', '“{q}” y “{q1}” se toman por dos tintes.'],
  ['Write the name in one way if they are the same jar.', 'Escriba el nombre de una sola forma si son el mismo bote.'],
  ['“{q}” has no swatch that can be used, so no plan uses it.', '“{q}” no tiene ninguna probeta utilizable, así que ningún plan lo usa.'],
  ['Fire it on a test tab, one and two coats, and read before and after.', 'Cuézalo en una muestra de prueba, con una y dos capas, y léala antes y después.'],
  ["“{q}” changes its swatches by ΔE00 {n} at most, hardly more than the readings' own uncertainty.", '“{q}” cambia sus probetas en ΔE00 {n} como máximo, apenas más que la incertidumbre de las propias lecturas.'],
  ['Fire two or three coats, so that its effect stands out.', 'Cueza dos o tres capas, para que destaque su efecto.'],
  ['“{q}” has one swatch only; how it builds up in coats leans on what stains usually do.', '“{q}” tiene una sola probeta; cómo crece con las capas se supone por lo que suelen hacer los tintes.'],
  ['Fire a second tab with twice the coats.', 'Cueza una segunda probeta con el doble de capas.'],
  ['All swatches of “{q}” have the same number of coats.', 'Todas las probetas de “{q}” tienen el mismo número de capas.'],
  ['Add one with another number of coats, so that building up is known.', 'Añada una con otro número de capas, para saber cómo crece.'],
  ['A swatch of “{q}” got lighter, though its others get darker.', 'Una probeta de “{q}” se aclaró, aunque las demás se oscurecen.'],
  ['Look at its photos again: base and result may be exchanged, or the light differed. It is not taken as a stain that lightens.', 'Mire otra vez sus fotos: base y resultado pueden estar intercambiados, o la luz era distinta. No se toma por un tinte que aclara.'],
  ['A swatch of “{q}” ({n} coats) is ΔE00 {n1} from what its others predict.', 'Una probeta de “{q}” (capas: {n}) está a ΔE00 {n1} de lo que prevén las demás.'],
  ['Look at its photos again, or fire it again; until then the strengths are a compromise.', 'Mire otra vez sus fotos o repita la cocción; hasta entonces, las fuerzas son un compromiso.'],
  ['“{q}”: {n} coats changed the base less than {n1} did.', '“{q}”: {n} capas cambiaron la base menos que {n1}.'],
  ['Look whether the two were exchanged, or fire them again.', 'Mire si las dos se intercambiaron, o cuézalas de nuevo.'],
];

const swatch = (text: string): string => text.replace('The swatch of', 'La probeta de').replace('a mix', 'una mezcla');

export const swatchTable = tableOf(swatchRows, {
  swatch: ['The swatch of (?:a mix|“[^”]*”)(?: \\([^)]*\\))?', swatch],
  what: choice({ base: 'su base', result: 'su resultado' }),
});
