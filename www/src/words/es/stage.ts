import type { Words } from '../index';
import { of, the } from './grammar';

export const stage: Words['stage'] = {
  label: 'Foto. Más y menos amplían y reducen, 0 ajusta, 1 muestra píxeles reales, las flechas mueven, Supr quita el contorno seleccionado.',
  labelTool: (tool) => `Foto. Las flechas mueven la cruz, Intro marca ahí ${tool}. Más y menos amplían y reducen, Esc termina de marcar.`,
  labelAdjust: 'Foto, con la de polarización cruzada superpuesta. Las flechas la mueven 1 píxel; con Mayús, 10; Esc termina.',
  zoomIn: 'Ampliar',
  zoomOut: 'Reducir',
  fit: 'Todo',
  fitLong: 'Ajustar la foto a la vista',
  actual: '100 %',
  actualLong: 'Un píxel de la foto por píxel de pantalla',
  hide: 'Ocultar',
  hideLong: 'Mantenga pulsado para ocultar los contornos (o la tecla H)',
  zoomHelp: (percent) => `Ampliación ${percent} %`,
  cervical: 'cervical',
  incisal: 'incisal',
  axisEnd: (end, what) => `Extremo ${end} del eje mayor ${of(what)}. Las flechas lo mueven.`,
  point: (n, count, what) => `Punto ${n} de ${count} ${of(what)}. Las flechas lo mueven, los corchetes van al siguiente, Insert añade, Supr quita.`,
  move: (what) => `Mover ${the(what)} en conjunto. Las flechas lo mueven.`,
  zoomToEdit: 'Amplíe para mover puntos sueltos',
  crossHelp: 'Las flechas mueven la cruz, Intro marca',
};
