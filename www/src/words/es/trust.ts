import type { Words } from '../index';

export const trust: Words['trust'] = {
  title: 'En qué se apoya la lectura',
  rungs: {
    card: 'Tarjeta gris',
    card_steps: 'Tarjeta con parches de gris',
    card_and_tabs: 'Tarjeta y muestras',
    card_and_own_tabs: 'Tarjeta y muestras propias medidas',
  },
  here: 'aquí',
  raise: 'Qué la haría más firme',
  tabs: (n) => (n === 1 ? 'la muestra en que se apoya' : `las ${n} muestras en que se apoya`),
  byTabs: (name, delta) => `${name}: las demás muestras la sitúan a ${delta} ΔE00 de su color conocido.`,
  byCard: (name, delta) => `${name}: la tarjeta sola la sitúa a ${delta} ΔE00 de su color conocido.`,
  unusedByTabs: (name, delta) => `${name} no se usa: las demás muestras la sitúan a ${delta} ΔE00 de su color conocido.`,
  unusedByCard: (name, delta) => `${name} no se usa: la tarjeta la sitúa a ${delta} ΔE00 de su color conocido.`,
  falloff: (percent) => `La luz varía un ${percent} entre los lugares delimitados; está corregido.`,
  toneCurve: 'En los parches de la tarjeta se encontró una curva de tonos y se deshizo.',
  polarised: 'Esta foto se hizo con polarización cruzada',
  polarisedHint: 'Entonces no muestra reflejos, y no se descuenta ninguno.',
  yes: 'Sí',
  no: 'No',
};
