import type { Words } from '../index';

export const tour: Words['tour'] = {
  offer: 'Rundgang – 40 s',
  menu: 'Rundgang',
  label: 'Ein Rundgang',
  at: (n, of) => `${n} von ${of}`,
  next: 'Weiter',
  back: 'Zurück',
  leave: 'Beenden',
  done: 'Fertig',
  stations: {
    steps: {
      photo: { title: 'Das Foto', text: 'Karte, Farbmuster und Zähne werden gefunden und umrissen. Tippen Sie einen Umriss an, um ihn zu ändern; zwei Finger oder das Rad zoomen.' },
      light: { title: 'Ist ihm zu trauen?', text: 'Zuerst wird das Licht geprüft. Muss das Foto neu aufgenommen werden, steht es hier, und es gibt keine Zahl.' },
      answer: { title: 'Die Antwort', text: 'Für jedes Drittel: das nächste Farbmuster, wie weit es entfernt ist und wie unsicher diese Zahl ist.' },
      paint: { title: 'Was aufzutragen ist', text: 'In welche Richtung die Krone gehen muss, Drittel für Drittel. Der Plan macht daraus Schichten, aus Ihren eigenen Brennproben.' },
      depth: { title: 'Mehr, wenn Sie wollen', text: 'Alle Farbmuster der Reihe nach, alle Zahlen und worauf die Messung steht: ein Tipp öffnet es, ein Tipp schließt es.' },
      patient: { title: 'Für Ihre Patienten', text: 'Ein ruhiger Bildschirm mit zwei Bildern und einem Satz, ohne Zahlen oder Namen.' },
    },
  },
};
