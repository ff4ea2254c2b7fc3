import type { Words } from '../index';

export const flow: Words['flow'] = {
  title: 'Pasos',
  steps: { photo: 'Foto', card: 'Tarjeta', tabs: 'Muestras', teeth: 'Diente y restauración' },
  count: (n) => (n > 1 ? `hecho (${n})` : 'hecho'),
  card: { say: 'Toque la tarjeta gris en la foto.', hint: 'O arrastre un recuadro a su alrededor. Su color impreso se puede escribir después.' },
  step: { say: 'Toque el siguiente parche de gris de la tarjeta.', hint: 'Después escriba su color impreso.' },
  second: { say: 'Toque la tarjeta en su segundo lugar.', hint: 'La misma tarjeta otra vez, u otra del mismo gris, lejos de la primera.' },
  tab: {
    before: 'Toque la muestra',
    after: 'en la foto.',
    nameless: '¿nombre?',
    change: (name) => (name ? `Muestra siguiente: ${name}. Elegir otro nombre` : 'Elegir el nombre de la muestra siguiente'),
    hint: 'Después, la siguiente. Pulse su nombre para elegir otro.',
    done: 'Muestras marcadas',
    skip: 'No hay muestras',
  },
  tooth: { say: 'Toque el diente natural.', hint: 'En el centro de su superficie visible, lejos del brillo.', done: 'Ahora: restauración' },
  restoration: { say: 'Toque la corona o la carilla.', hint: 'Esté o no delimitada. ¿No sale ninguna? Pulse Terminado.' },
  finished: 'Terminado',
  look: { say: 'Elija arriba un paso para marcar algo.', ready: 'Toque un contorno en la foto para corregirlo, o un paso para marcar más.' },
  toReading: 'Ver la lectura',
  typed: 'Otro nombre',
  typedAdd: 'Usar',
  nextName: 'Nombre de la muestra',
  byNumbers: 'Con números',
  byNumbersLong: 'Sin tocar: coloque un rectángulo y escriba dónde están sus esquinas',
};
