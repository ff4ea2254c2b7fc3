import type { Words } from '../index';

export const settings: Words['settings'] = {
  page: 'Tabside: Zahnfarbe aus einem Foto',
  title: 'Einstellungen',
  close: 'Schließen',
  surround: 'Seite um die Bilder',
  surrounds: { texts: { dark: 'Dunkel', light: 'Hell', device: 'Wie dieses Gerät' } },
  surroundHint: 'Bilder behalten dasselbe mittlere Grau um sich, damit sie in beiden gleich beurteilt werden.',
  language: 'Sprache',
  languageHint: 'Was offen ist, bleibt offen. Namen von Farben, Farbmustern und Malfarben bleiben, wie sie geschrieben wurden.',
  keys: 'Tasten',
  singleKeys: 'Einzeltasten wirken überall auf der Seite (H, V, ?)',
  singleKeysHint: 'Schalten Sie das aus, wenn Sie Text diktieren oder leicht an Tasten kommen; für alles gibt es auch eine Schaltfläche.',
  kept: 'Nur auf diesem Gerät aufbewahrt, und nur, was Sie hier einstellen.',
};
