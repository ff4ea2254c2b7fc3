import type { Words } from '../index';

export const privacy: Words['privacy'] = {
  title: 'Was wo aufbewahrt wird, und wie Sie es löschen',
  stays: 'Von selbst verlässt nichts dieses Gerät. Fotos werden hier gelesen, und alles wird hier berechnet; die Seite holt nur ihre eigenen Dateien und sendet niemandem etwas.',
  hand: 'Nach außen gelangt, was Sie selbst weitergeben: eine Datei, die Sie speichern und verschicken, Zahlen, die Sie kopieren, ein Blatt, das Sie drucken.',
  kept: 'Auf diesem Gerät aufbewahrt',
  what: 'Was',
  where: 'Wo',
  places: {
    texts: {
      cases: 'Fälle: Fotos (befreit von Ort und Seriennummern), Umrisse, Notizen, Messungen, die Arbeit mit Plan und Durchgängen',
      swatches: 'Brennproben und Übung',
      settings: 'Einstellungen: Sprache, Seite um die Bilder, Tasten, das Wort für die Patientin oder den Patienten',
      program: 'Das Programm selbst, für den Gebrauch ohne Netz',
    },
  },
  inBrowser: {
    texts: {
      database: 'Speicher dieses Browsers (IndexedDB, „tabside“)',
      both: 'Beides, damit ein Absturz nichts kostet',
      local: 'Speicher dieses Browsers (Local Storage, „tabside.…“)',
      copy: 'Cache dieses Browsers: die eigenen Dateien des Programms, nichts von Ihnen',
    },
  },
  program: {
    texts: {
      kept: 'Es ist vollständig da: Die Seite öffnet sich und arbeitet ohne Netz.',
      none: 'Hier ist noch keine Kopie, oder dieser Browser behält keine: Ohne Netz öffnet sich die Seite vielleicht nicht wieder.',
      file: 'Dies ist die Ausgabe in einer einzigen Datei: Die Datei ist das Programm und braucht kein Netz.',
    },
  },
  who: 'Wer diesen Browser auf diesem Gerät benutzt, kann sehen, was aufbewahrt ist. Ein Browser kann seinen Speicher von selbst leeren, wenn der Platz knapp wird oder eine Seite lange nicht besucht wurde, und immer nach einem privaten Fenster: Was zählt, gehört in eine gespeicherte Falldatei.',
  inCase: 'In einer Falldatei',
  caseHolds: 'Fotos, wie Sie sie geöffnet haben, befreit von Aufnahmeort, Seriennummern und Namen, die die Kamera hineinschrieb; Umrisse, Messungen, Notizen, Brennproben, Plan. Dateinamen und was Sie getippt haben, bleiben darin, wie sie sind: Sehen Sie beides durch, bevor Sie die Datei weitergeben. Ohne Passphrase kann sie jeder lesen, der sie hat.',
  erase: 'Alles auf diesem Gerät Aufbewahrte löschen',
  eraseAsk: 'Das löscht die aufbewahrten Fotos und Fälle, Brennproben, Plan und Übung, die Einstellungen und die Kopie des Programms für den Gebrauch ohne Netz; auch, was in diesem Fenster offen ist. Es lässt sich nicht rückgängig machen. Dateien, die Sie gespeichert haben, bleiben, wo sie sind.',
  eraseYes: 'Ja, jetzt alles löschen',
  eraseNo: 'Nein, behalten',
  erasing: 'Wird gelöscht …',
  erased: 'Alles auf diesem Gerät Aufbewahrte ist gelöscht.',
  erasedHint: 'Sie können dieses Fenster jetzt schließen. Um weiterzuarbeiten, beginnen Sie neu: Das Programm kommt wieder wie beim ersten Besuch.',
  notErased: 'Nicht alles ließ sich löschen.',
  left: {
    texts: {
      database: 'Fotos und Fälle sind noch da: Ein anderes Fenster von Tabside hält sie offen. Schließen Sie alle anderen, und versuchen Sie es noch einmal.',
      storage: 'Dieser Browser hat Brennproben und Einstellungen nicht hergegeben. Löschen Sie die Daten dieser Website in den Einstellungen des Browsers.',
      copy: 'Dieser Browser hat die Dateien des Programms nicht hergegeben. Löschen Sie die Daten dieser Website in den Einstellungen des Browsers.',
    },
  },
  again: 'Noch einmal versuchen',
  anew: 'Neu beginnen',
};
