import type { Words } from '../index';

export const stage: Words['stage'] = {
  label: 'Foto. Plus und Minus zoomen, 0 passt ein, 1 zeigt echte Pixel, Pfeiltasten verschieben, Entf entfernt den ausgewählten Umriss.',
  labelTool: (tool) => `Foto. Pfeiltasten verschieben das Kreuz, Eingabe markiert dort ${tool}. Plus und Minus zoomen, Esc beendet das Markieren.`,
  labelAdjust: 'Foto, darüber das kreuzpolarisierte. Pfeiltasten verschieben es um 1 Pixel, mit Umschalt um 10; Esc beendet.',
  zoomIn: 'Vergrößern',
  zoomOut: 'Verkleinern',
  fit: 'Ganz',
  fitLong: 'Ganzes Foto in die Ansicht einpassen',
  actual: '100 %',
  actualLong: 'Ein Bildpixel je Bildschirmpixel',
  hide: 'Umrisse aus',
  hideLong: 'Halten, um die Umrisse auszublenden (oder Taste H halten)',
  zoomHelp: (percent) => `Zoom ${percent} %`,
  cervical: 'Zervikales',
  incisal: 'Inzisales',
  axisEnd: (end, what) => `${end} Ende der Längsachse: ${what}. Pfeiltasten verschieben es.`,
  point: (n, count, what) => `Punkt ${n} von ${count}: ${what}. Pfeiltasten verschieben ihn, Klammertasten gehen zum nächsten, Einfg fügt hinzu, Entf entfernt.`,
  move: (what) => `${what} als Ganzes verschieben. Pfeiltasten verschieben.`,
  zoomToEdit: 'Näher zoomen, um einzelne Punkte zu verschieben',
  crossHelp: 'Pfeiltasten verschieben das Kreuz, Eingabe markiert',
};
