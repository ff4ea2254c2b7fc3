import type { Words } from '../index';

export const privacy: Words['privacy'] = {
  title: 'Qué se guarda y dónde, y cómo borrarlo',
  stays: 'Nada sale de este dispositivo por sí solo. Las fotos se leen y todo se calcula aquí; la página solo pide sus propios archivos y no envía nada a nadie.',
  hand: 'Sale lo que usted entrega: un archivo que guarda y envía, valores que copia, una hoja que imprime.',
  kept: 'Guardado en este dispositivo',
  what: 'Qué',
  where: 'Dónde',
  places: {
    texts: {
      cases: 'Casos: fotos (sin lugar ni números de serie), contornos, notas, lecturas, el trabajo con su plan y sus pasadas',
      swatches: 'Probetas y práctica',
      settings: 'Ajustes: idioma, página alrededor de las imágenes, teclas, la palabra para el paciente',
      program: 'El programa mismo, para usarlo sin red',
    },
  },
  inBrowser: {
    texts: {
      database: 'Almacenamiento de este navegador (IndexedDB, «tabside»)',
      both: 'Ambos, para que un fallo no pierda nada',
      local: 'Almacenamiento de este navegador (local storage, «tabside.…»)',
      copy: 'Caché de este navegador: los archivos del programa, nada suyo',
    },
  },
  program: {
    texts: {
      kept: 'Está completo aquí: la página se abre y funciona sin red.',
      none: 'Aquí no hay copia todavía, o este navegador no guarda ninguna: sin red la página quizá no vuelva a abrirse.',
      file: 'Esta es la edición en un solo archivo: el archivo es el programa y no necesita red.',
    },
  },
  who: 'Quien use este navegador en este dispositivo puede ver lo guardado. Un navegador puede vaciar su almacenamiento por sí solo, si falta espacio o si una página no se visita en mucho tiempo, y siempre tras una ventana privada: lo que importa debe estar en un archivo de caso guardado.',
  inCase: 'En un archivo de caso',
  caseHolds: 'Las fotos tal como las abrió, sin el lugar donde se tomaron, sin números de serie y sin nombres escritos por la cámara; contornos, lecturas, notas, probetas, plan. Los nombres de archivo y lo que usted escribió quedan como están: revíselos antes de entregarlo. Sin frase de contraseña, quien tenga el archivo puede leerlo.',
  erase: 'Borrar todo lo guardado en este dispositivo',
  eraseAsk: 'Esto borra las fotos y los casos guardados, las probetas, el plan y la práctica, los ajustes y la copia del programa para usarlo sin red; también lo que está abierto en esta ventana. No se puede deshacer. Los archivos que guardó quedan donde los puso.',
  eraseYes: 'Sí, borrar todo ahora',
  eraseNo: 'No, conservarlo',
  erasing: 'Borrando …',
  erased: 'Todo lo guardado en este dispositivo está borrado.',
  erasedHint: 'Ya puede cerrar esta ventana. Para seguir, empiece de nuevo: el programa vuelve como en la primera visita.',
  notErased: 'No se pudo borrar todo.',
  left: {
    texts: {
      database: 'Las fotos y los casos siguen guardados: otra ventana de Tabside los mantiene abiertos. Cierre todas las demás e inténtelo de nuevo.',
      storage: 'Este navegador no ha soltado las probetas y los ajustes. Borre los datos de este sitio en los ajustes del navegador.',
      copy: 'Este navegador no ha soltado los archivos del programa. Borre los datos de este sitio en los ajustes del navegador.',
    },
  },
  again: 'Intentar de nuevo',
  anew: 'Empezar de nuevo',
};
