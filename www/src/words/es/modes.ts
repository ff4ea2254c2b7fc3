import type { Words } from '../index';

export const modes: Words['modes'] = {
  title: 'Qué se muestra',
  names: { reading: 'Lectura', photos: 'Bandeja', plan: 'Plan', swatches: 'Probetas', practice: 'Práctica' },
  start: 'Inicio',
  without: 'Sin foto',
  openPhotos: 'Varias fotos',
  openPlan: 'Plan con colores escritos',
  openSwatches: 'Mis probetas',
  openPractice: 'Práctica',
};
