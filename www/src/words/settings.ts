export const settings = {
  /** The title of the page, in the browser's tab. */
  page: 'Tabside: tooth colour from one photo',
  title: 'Settings',
  close: 'Close',
  surround: 'Page around the pictures',
  surrounds: { texts: { dark: 'Dark', light: 'Light', device: 'As this device is set' } },
  surroundHint: 'The grey around the pictures stays the same in both, so that they are judged alike.',
  language: 'Language',
  languageHint: 'What is open stays open. Names of colours, tabs and stains stay as they were written.',
  keys: 'Keys',
  singleKeys: 'Single keys act anywhere on the page (H, V, ?)',
  singleKeysHint: 'Turn this off if you dictate, or press keys by accident; everything has a button too.',
  kept: 'These settings are kept on this device only.',
};
