export const settings = {
  /** The title of the page, in the browser's tab. */
  page: 'Tabside: tooth colour from one photo',
  title: 'Settings',
  close: 'Close',
  surround: 'Page around the pictures',
  surrounds: { texts: { dark: 'Dark', light: 'Light', device: 'As this device is set' } },
  surroundHint: 'Pictures keep the same middle grey around them, so that they are judged alike in both.',
  language: 'Language',
  languageHint: 'What is open stays open. Names of colours, tabs and stains stay as they were written.',
  keys: 'Keys',
  singleKeys: 'Single keys act anywhere on the page (H, V, ?)',
  singleKeysHint: 'Turn this off if you speak your text or lean on keys; everything has a button too.',
  kept: 'Kept on this device only, and only what you set here.',
};
