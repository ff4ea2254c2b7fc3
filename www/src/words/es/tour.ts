import type { Words } from '../index';

export const tour: Words['tour'] = {
  offer: 'Recorrido de 40 segundos',
  menu: 'Recorrido',
  label: 'Recorrido por la página',
  at: (n, of) => `${n} de ${of}`,
  next: 'Siguiente',
  back: 'Atrás',
  leave: 'Salir',
  done: 'Listo',
  stations: {
    steps: {
      photo: { title: 'La foto', text: 'Tarjeta, muestras y dientes se encuentran y se delimitan solos. Toque uno para cambiarlo; dos dedos o la rueda amplían.' },
      light: { title: '¿Es fiable?', text: 'Primero se comprueba la luz. Si hay que repetir la foto, aquí se dice, y no se muestra ningún valor.' },
      answer: { title: 'La respuesta', text: 'Para cada tercio: la muestra más próxima, a qué distancia está y la incertidumbre de ese valor.' },
      paint: { title: 'Qué pintar', text: 'En qué dirección tiene que ir la corona, tercio a tercio. El plan lo convierte en capas, con sus propias probetas cocidas.' },
      depth: { title: 'Más, cuando lo quiera', text: 'Todas las muestras por orden, todos los valores y en qué se apoya la lectura están a un toque, y se cierran igual.' },
      patient: { title: 'Para el paciente', text: 'Una pantalla tranquila con dos imágenes y una frase, sin números ni nombres.' },
    },
  },
};
