import type { Words } from '../index';

export const offline: Words['offline'] = {
  newHere: 'Hay una versión nueva de Tabside.',
  newHint: 'Nada cambia por sí solo: empieza cuando cierre la página y la vuelva a abrir, o ahora si lo desea.',
  newFile: 'Ya está completa en este dispositivo.',
  useNow: 'Usarla ahora',
  unsaved: 'En esta ventana hay algo sin guardar; la versión nueva empieza sin ello. Guárdelo primero, o siga.',
  useNowUnsaved: 'Usarla ahora, sin lo que no está guardado',
  notNow: 'Ahora no',
  states: {
    texts: {
      changing: 'Empieza la versión nueva …',
      otherWindows: 'Tabside está abierto también en otra ventana o pestaña. Cierre antes las demás: seguirían con partes de dos versiones.',
      noAnswer: 'La versión nueva no ha empezado. Cierre todas las ventanas de Tabside y ábralo de nuevo; hasta entonces esta versión sigue como está.',
    },
  },
};
