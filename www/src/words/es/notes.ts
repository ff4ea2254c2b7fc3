import type { Words } from '../index';
import { counted, lower } from './grammar';

export const notes: Words['notes'] = {
  title: 'Notas sobre la foto',
  gist: (n) => (n === 0 ? 'ninguna' : counted(n, 'nota', 'notas')),
  hint: 'Una nota se fija en un lugar. Queda con la foto y se imprime con el informe. Sin nombres de pacientes.',
  add: 'Añadir una nota',
  addShort: 'Nota',
  tap: 'Toque el lugar en la foto.',
  middle: 'En el centro de la vista',
  cancel: 'Cancelar',
  full: (n) => `En una foto caben ${n} notas.`,
  note: (n) => `Nota ${n}`,
  pin: (n, text) => `Nota ${n}${text ? `: ${text}` : ''}. Las flechas la mueven, Intro va a su texto, Supr la quita.`,
  text: (n) => `Texto de la nota ${n}`,
  show: (n) => `Mostrar la nota ${n} en la foto`,
  showShort: 'Mostrar',
  remove: (n) => `Quitar la nota ${n}`,
  removeShort: 'Quitar',
  added: (n, where) => `Nota ${n} fijada ${where}. Escriba su texto.`,
  moved: (n, where) => `La nota ${n} está ${where}.`,
  empty: 'aún sin texto',
  picture: 'La foto con las marcas de sus notas',
  where: {
    on: (what) => `sobre ${what}`,
    onThird: (what, third) => `sobre ${what}, ${lower(third)}`,
    beside: (what) => `junto a ${what}`,
    parts: ['arriba a la izquierda', 'arriba', 'arriba a la derecha', 'a la izquierda', 'en el centro', 'a la derecha', 'abajo a la izquierda', 'abajo', 'abajo a la derecha'],
    of: (part) => `${part} de la foto`,
  },
  edits: {
    add: 'añadir una nota',
    move: 'mover una nota',
    text: 'escribir una nota',
    remove: 'quitar una nota',
  },
};
