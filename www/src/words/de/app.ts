import type { Words } from '../index';

/** The name is what the demo is known again by: it is the same in every language. */
const demo = { name: 'demo photo', label: 'Demofoto: berechnet, nicht echt' };

export const app: Pick<Words, 'photo' | 'demo' | 'menu' | 'start' | 'views' | 'busy' | 'drop' | 'dismiss'> = {
  photo: { unnamed: 'eingefügtes Foto', shown: (name) => (name === demo.name ? demo.label : name) },
  demo,
  menu: {
    open: 'Foto öffnen',
    camera: 'Foto aufnehmen',
    demo: 'Demofall',
    more: 'Mehr',
    undo: 'Rückgängig',
    redo: 'Wiederholen',
    undoWhat: (what) => `Rückgängig: ${what}`,
    redoWhat: (what) => `Wiederholen: ${what}`,
    saveScene: 'Szene (Umrisse und Karte) als Datei speichern',
    openScene: 'Gespeicherte Szene öffnen',
    ownTabs: 'Farben meiner Farbmuster',
    guide: 'Andere Farbskala verwenden (Datei)',
    polarised: 'Kreuzpolarisiertes Foto derselben Ansicht hinzufügen',
    copyCsv: 'Zahlen kopieren',
    saveCsv: 'Zahlen als CSV speichern',
    print: 'Messung und Empfehlung drucken',
    groups: { photo: 'Foto', files: 'Zahlen und Dateien', bench: 'Labor und Patient', page: 'Diese Seite' },
  },
  start: {
    what: 'Misst aus einem Foto mit Farbmustern und Graukarte die Farbe jedes Zahndrittels, nennt das nächste Farbmuster und plant aus Ihren eigenen Brennproben, was wo aufzutragen ist.',
    open: 'Foto öffnen',
    openHint: 'JPEG, PNG, TIFF oder WebP; auch durch Hineinziehen oder Einfügen',
    camera: 'Foto aufnehmen',
    cameraHint: 'mit der Kamera dieses Geräts',
    demo: 'Demo ansehen',
    demoHint: 'ein erfundener Fall, fertig umrissen',
    privacy: 'Ihr Foto bleibt auf diesem Gerät: Es wird hier gemessen und nirgendwohin gesendet.',
    howTitle: 'So lässt sich ein Foto messen',
    how: [
      'Zahn, Farbmuster und eine matte Graukarte nebeneinander, gleich weit von der Kamera und gleich zu ihr gewandt.',
      'Gleichmäßiges Licht von beiden Seiten, Raumlicht aus; kein Glanz auf Karte, Farbmustern oder Zähnen.',
      'Belichtung und Weißabgleich fest eingestellt; kein Filter, keine Verschönerung, kein Digitalzoom.',
      'Namen der Farbmuster lesbar. Farbmuster und Zähne beide feucht oder beide trocken.',
    ],
    careTitle: 'Bevor Sie sich darauf verlassen',
    care: [
      'Nehmen Sie die Farbe zuerst, innerhalb von 1 bis 2 Minuten: Ein trocknender Zahn wird heller.',
      'Eine Graukarte aus Papier lässt sich nicht desinfizieren und darf kein Gewebe berühren. Reinigen Sie Farbmuster nach den Angaben des Herstellers und den Regeln Ihrer Praxis.',
      'Die Entscheidung über die Farbe bleibt in zahnärztlicher Hand: bei der Einprobe, unter zwei Lichtquellen.',
    ],
  },
  views: { photo: 'Foto', sheet: 'Messung', choose: 'Foto oder Messung zeigen', skipTo: (what) => `Weiter zu: ${what}` },
  busy: {
    starting: 'Einen Augenblick',
    opening: (name) => `${name} wird geöffnet`,
    reading: 'Farben werden gemessen',
    outlining: 'Umriss wird gesucht',
    finding: 'Karte, Farbmuster und Zähne werden gesucht',
    cutting: 'Umriss wird geteilt',
    cancel: 'Abbrechen',
    phase: {
      'loading-program': 'startet',
      'reading-file': 'liest die Datei',
      decoding: 'entschlüsselt das Bild',
      working: 'rechnet',
    },
  },
  drop: 'Foto hier ablegen',
  dismiss: 'Meldung schließen',
};
