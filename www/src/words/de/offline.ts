import type { Words } from '../index';

export const offline: Words['offline'] = {
  newHere: 'Eine neue Version von Tabside ist da.',
  newHint: 'Von selbst ändert sich nichts: Sie beginnt, wenn Sie die Seite schließen und wieder öffnen, oder jetzt, wenn Sie möchten.',
  newFile: 'Sie liegt schon vollständig auf diesem Gerät.',
  useNow: 'Jetzt verwenden',
  unsaved: 'In diesem Fenster ist etwas nicht gespeichert; die neue Version beginnt ohne es. Speichern Sie es zuerst, oder machen Sie weiter.',
  useNowUnsaved: 'Jetzt verwenden, ohne das nicht Gespeicherte',
  notNow: 'Jetzt nicht',
  states: {
    texts: {
      changing: 'Die neue Version beginnt …',
      otherWindows: 'Tabside ist noch in einem anderen Fenster oder Tab offen. Schließen Sie die anderen zuerst: Sie würden mit Teilen zweier Versionen weiterlaufen.',
      noAnswer: 'Die neue Version hat nicht begonnen. Schließen Sie alle Fenster von Tabside, und öffnen Sie es wieder; bis dahin läuft diese Version weiter wie bisher.',
    },
  },
};
