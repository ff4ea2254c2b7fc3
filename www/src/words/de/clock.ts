import type { Words } from '../index';

export const clock: Words['clock'] = {
  title: 'Trocknungsuhr',
  start: 'Zähne frei',
  startLong: 'Zähne frei: drücken, sobald Lippen und Wangen abgehalten sind; zählt, wie lange die Zähne schon trocknen',
  stop: 'Anhalten',
  stopLong: 'Trocknungsuhr anhalten',
  reset: 'Auf null',
  resetLong: 'Trocknungsuhr auf null stellen',
  running: (time) => `Trocknet seit ${time}`,
  warning: 'Über 2 Minuten: Trocknende Zähne werden heller. Nehmen Sie die Farbe 1–2 Minuten nach dem Abhalten; danach die Zähne wieder feucht werden lassen oder an einem anderen Tag messen.',
  why: 'Quellen',
  sources: [
    'J Dent 2021;105:103560: Nach 2 Minuten liegt die mittlere Veränderung (ΔE00) über der Wahrnehmbarkeitsschwelle.',
    'J Esthet Restor Dent 2019;31:118–23: Nach 1 Minute haben sich 87 % der Zähne um mehr als 0,8 verändert.',
    'J Esthet Restor Dent 2021;33:364–70.',
  ],
};
