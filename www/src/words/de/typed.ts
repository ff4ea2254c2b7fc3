import type { Words } from '../index';

export const typed: Words['typed'] = {
  number: 'Das ist keine Zahl.',
  range: (min, max, whole) => `${whole ? 'Eine ganze Zahl von' : 'Von'} ${min} bis ${max}.`,
  holds: (value) => `${value} gilt.`,
  axis: (axis, min, max) => `${axis}: von ${min} bis ${max}`,
  full: (most) => `Höchstens ${most} Zeichen.`,
};
