import type { Words } from '../index';

/** About what is typed into fields. */
export const typed: Words['typed'] = {
  number: 'Esto no es un número.',
  range: (min, max, whole) => `${whole ? 'Un número entero de' : 'De'} ${min} a ${max}.`,
  holds: (value) => `Sigue valiendo ${value}.`,
  axis: (axis, min, max) => `${axis}: de ${min} a ${max}`,
  full: (most) => `Como máximo, ${most} letras.`,
};
