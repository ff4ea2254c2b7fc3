import type { Words } from '../index';
import { lower } from './grammar';

export const tabs: Words['tabs'] = {
  title: 'Colores de mis muestras',
  why: 'Las muestras varían de un juego a otro. Con los colores de sus propias muestras, medidos con un instrumento (D65, 2°), la lectura se apoya en terreno más firme.',
  setName: 'Nombre del juego',
  mine: 'Mis muestras',
  note: 'Medido en muestras propias.',
  fill: 'Rellenar con la guía en uso',
  empty: 'Vaciar todos los campos',
  open: 'Abrir un archivo de guía',
  add: 'Añadir muestra',
  use: 'Usar estos colores',
  save: 'Guardar en un archivo',
  name: 'Muestra',
  thirds: 'Tercios',
  thirdsOf: (name) => `Tercios de la muestra ${name}`,
  remove: (name) => `Quitar la muestra ${name}`,
  fieldName: (n) => `Nombre de la muestra ${n}`,
  field: (name, zone, axis) => `Muestra ${name}, ${lower(zone)}, ${axis}`,
  row: { whole: 'conjunto', cervical: 'cervical', middle: 'medio', incisal: 'incisal' },
  caption: 'L* de 30 a 100, a* de −10 a 15, b* de −5 a 45. Una muestra sin números se omite; los tercios pueden quedar vacíos.',
  faults: {
    none: 'Aún no tiene color ninguna muestra.',
    nameless: (n) => `La muestra ${n} no tiene nombre.`,
    twice: (name) => `Hay dos muestras ${name}.`,
    missing: (name) => `La muestra ${name} no tiene color para el conjunto.`,
    range: (name, zone, axis, min, max) => `Muestra ${name}, ${zone}: ${axis} tiene que ser un número de ${min} a ${max}.`,
  },
  faultsTitle: 'Aún sin usar:',
  inUse: (name, count) => (count === 1 ? `El color medido de “${name}” está en uso.` : `Los ${count} colores medidos de “${name}” están en uso.`),
};
