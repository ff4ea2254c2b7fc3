import type { Words } from '../index';

export const settings: Words['settings'] = {
  page: 'Tabside: el color del diente en una foto',
  title: 'Ajustes',
  close: 'Cerrar',
  surround: 'Página alrededor de las imágenes',
  surrounds: { texts: { dark: 'Oscura', light: 'Clara', device: 'Como este dispositivo' } },
  surroundHint: 'Las imágenes conservan el mismo gris medio a su alrededor, para que se juzguen igual en ambas.',
  language: 'Idioma',
  languageHint: 'Lo que está abierto sigue abierto. Los nombres de colores, muestras y tintes quedan como se escribieron.',
  keys: 'Teclas',
  singleKeys: 'Las teclas sueltas actúan en toda la página (H, V, ?)',
  singleKeysHint: 'Desactívelo si dicta el texto o se apoya en las teclas; para todo hay también un botón.',
  kept: 'Se conserva solo en este dispositivo, y solo lo que usted ajuste aquí.',
};
