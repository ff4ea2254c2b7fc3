import type { Words } from '../index';

export const clock: Words['clock'] = {
  title: 'Reloj de secado',
  start: 'Labios retraídos',
  startLong: 'Pulse cuando labios y mejillas estén separados: cuenta cuánto llevan secándose los dientes',
  stop: 'Parar',
  stopLong: 'Parar el reloj de secado',
  reset: 'A cero',
  resetLong: 'Poner a cero el reloj de secado',
  running: (time) => `Secándose desde hace ${time}`,
  warning: 'Más de 2 minutos: los dientes se aclaran al secarse. Tome el color en 1–2 minutos tras separar los labios; después, deje que se rehidraten o léalos otro día.',
  why: 'Fuentes',
  sources: [
    'J Dent 2021;105:103560: a los 2 minutos, el cambio medio (ΔE00) supera el umbral de perceptibilidad.',
    'J Esthet Restor Dent 2019;31:118–23: al cabo de 1 minuto, el 87 % de los dientes ha cambiado más de 0,8.',
    'J Esthet Restor Dent 2021;33:364–70.',
  ],
};
