import type { Words } from '../index';
import type { app as english } from '../app';

/** By its name the demo is known again, in whichever language it was opened. */
const demo = { name: 'demo photo', label: 'foto de demostración: generada, sin dientes de nadie' };

export const app: Pick<Words, keyof typeof english> = {
  photo: { unnamed: 'foto pegada', shown: (name) => (name === demo.name ? demo.label : name) },
  demo,
  menu: {
    open: 'Abrir foto',
    camera: 'Hacer foto',
    demo: 'Caso de demostración',
    more: 'Más',
    undo: 'Deshacer',
    redo: 'Rehacer',
    undoWhat: (what) => `Deshacer: ${what}`,
    redoWhat: (what) => `Rehacer: ${what}`,
    saveScene: 'Guardar la escena (contornos y tarjeta) en un archivo',
    openScene: 'Abrir una escena guardada',
    ownTabs: 'Colores de mis muestras',
    guide: 'Usar otra guía de colores (archivo)',
    polarised: 'Añadir la foto con polarización cruzada de la misma vista',
    copyCsv: 'Copiar los valores',
    saveCsv: 'Guardar los valores como CSV',
    print: 'Imprimir lecturas y consejos',
    groups: { photo: 'Foto', files: 'Valores y archivos', bench: 'Laboratorio y paciente', page: 'Esta página' },
  },
  start: {
    what: 'Lee el color de cada tercio de un diente en una sola foto con muestras de color y tarjeta gris, dice qué muestra es la más próxima y, con sus propias probetas cocidas, planifica qué pintar y dónde.',
    open: 'Abrir una foto',
    openHint: 'JPEG, PNG, TIFF o WebP; también puede arrastrarla o pegarla',
    camera: 'Hacer una foto',
    cameraHint: 'con la cámara de este dispositivo',
    demo: 'Ver la demostración',
    demoHint: 'un caso inventado, ya delimitado',
    privacy: 'Su foto no sale de este dispositivo: se lee aquí y no se envía a ninguna parte.',
    howTitle: 'Una foto que se pueda leer',
    how: [
      'Diente, muestras de color y una tarjeta gris mate, uno junto a otro, a la misma distancia de la cámara y con la misma orientación.',
      'Una luz uniforme desde ambos lados; la lámpara de la sala, apagada; sin brillos en tarjeta, muestras ni dientes.',
      'Exposición y balance de blancos fijos; sin filtros, sin modo belleza y sin zoom digital.',
      'Nombres de las muestras legibles. Muestras y dientes, todos húmedos o todos secos.',
    ],
    careTitle: 'Antes de fiarse del resultado',
    care: [
      'Tome el color lo primero, en 1 o 2 minutos: el diente se aclara al secarse.',
      'Una tarjeta gris de papel no se puede desinfectar y no debe tocar los tejidos. Limpie las muestras según su fabricante y sus normas locales.',
      'El color lo decide el clínico, en la prueba en boca, con dos luces.',
    ],
  },
  views: { photo: 'Foto', sheet: 'Lectura', choose: 'Mostrar la foto o la lectura', skipTo: (what) => `Saltar a: ${what}` },
  busy: {
    starting: 'Un momento',
    opening: (name) => `Abriendo ${name}`,
    reading: 'Midiendo los colores',
    outlining: 'Buscando el contorno',
    finding: 'Buscando tarjeta, muestras y dientes',
    cutting: 'Cortando el contorno',
    cancel: 'Cancelar',
    phase: {
      'loading-program': 'iniciando',
      'reading-file': 'leyendo el archivo',
      decoding: 'descodificando la imagen',
      working: 'calculando',
    },
  },
  drop: 'Suelte la foto aquí',
  dismiss: 'Cerrar este mensaje',
};
