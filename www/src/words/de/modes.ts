import type { Words } from '../index';

export const modes: Words['modes'] = {
  title: 'Was gezeigt wird',
  names: { reading: 'Messung', photos: 'Ablage', plan: 'Plan', swatches: 'Proben', practice: 'Übung' },
  start: 'Anfang',
  without: 'Ohne Foto',
  openPhotos: 'Mehrere Fotos',
  openPlan: 'Mit eingegebenen Farben planen',
  openSwatches: 'Meine Brennproben',
  openPractice: 'Übung',
};
