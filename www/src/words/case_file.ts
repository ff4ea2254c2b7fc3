const count = (n: number, one: string, more: string): string => (n === 1 ? `1 ${one}` : `${n} ${more}`);

/** Files of cases: saving, opening, the same numbers. */
export const caseFile = {
  fileName: 'case',
  // Saving.
  why: 'One file with photos, outlines, numbers, stains, plan and notes. Whoever opens it in Tabside sees whether the same numbers come out again. You hand it over yourself; nothing is sent.',
  label: 'What you call the case (not required)',
  labelHint: 'A number or a tooth says enough. A patient’s name need not be in it.',
  photos: 'Photos in the file',
  kept: {
    texts: {
      original: 'As the camera wrote them',
      reduced: 'Reduced copies for the eye',
      absent: 'None',
    },
  },
  keptHint: {
    texts: {
      original: 'The numbers can be derived again. Position, serial numbers and names are removed.',
      reduced: 'A small file. The numbers are in it and cannot be derived again.',
      absent: 'The smallest file: outlines and numbers only. The numbers cannot be derived again.',
    },
  },
  size: (text: string) => `about ${text}`,
  megabytes: (n: string) => `${n} MB`,
  passphrase: 'Passphrase (not required)',
  passphraseLabel: 'Passphrase',
  passphraseHint: 'With one the file is encrypted. Nobody can open it without the passphrase, you neither. Tell it by another way than the file.',
  weak: 'This passphrase is short. Four words that have nothing to do with each other are better.',
  show: 'Show the passphrase',
  saveNow: 'Save the file',
  saving: 'The case is being written',
  reading: (at: number, of: number) => `Reading photo ${at} of ${of}`,
  nothing: 'There is nothing to save yet. Open a photo first.',
  saved: (name: string, removed: number) => `${name} was saved.${removed > 0 ? ` Position, serial numbers or names were removed from ${count(removed, 'photo', 'photos')}.` : ''}`,
  saveFailed: 'The case could not be saved.',
  saveAdvice: 'What is open stays open.',
  wouldBeTooLarge: 'The file would be larger than 400 MB, and could not be opened in the browser again. Save it with reduced copies, or with no photos.',
  readOnly: 'This case was made by a newer version of Tabside. Saved here it would lose what this version does not understand. Update Tabside, or hand on the file you received.',
  // Opening.
  opening: (name: string) => `Opening ${name}`,
  openFailed: (name: string) => `${name} could not be opened as a case.`,
  tooLarge: 'The case file is larger than 400 MB. Ask the sender to leave photos out, or to make two cases of it.',
  openAdvice: 'What was open is still here.',
  opened: (name: string) => `The case ${name} is open.`,
  unlock: 'Open the encrypted case',
  unlockWhy: (name: string) => `${name} is encrypted. Type the passphrase that its sender told you.`,
  unlockNow: 'Open',
  fault: {
    texts: {
      wrongPassphrase: 'The passphrase is wrong, or the beginning of the file is damaged.',
      tampered: 'The passphrase is right, but the file was changed or damaged after it was saved.',
      lockedDamaged: 'This is no encrypted case, or its beginning is damaged.',
      lockedNewer: 'This case was encrypted in a way that this version does not know.',
      noCipher: 'This browser offers no encryption here.',
    },
  },
  sendAgain: 'Ask the sender for the file once more.',
  noCipherAdvice: 'Open Tabside by https or from this device, or save without a passphrase.',
  // What opening found.
  edits: { open: (name: string) => `open the case ${name}` },
  title: 'The case file',
  from: (name: string, when: string, version: string) => `${name}, saved ${when} by version ${version || 'unknown'}.`,
  checking: (done: number, of: number) => `The numbers are being derived again: ${done} of ${of} photos.`,
  outcome: {
    texts: {
      same: 'The same numbers: every value came out as it is kept in the file.',
      rounded: 'The same numbers, but for rounding that decides nothing.',
      'not-compared': 'The numbers are as they are kept in the file; they could not be derived again.',
      different: 'Other numbers came out than are kept in the file. Below is what differs, and why.',
    },
  },
  ofPhoto: {
    texts: {
      same: 'the same numbers',
      rounded: 'the same but for rounding',
      'not-compared': 'not compared',
      different: 'other numbers',
    },
  },
  largest: (delta: string) => `The largest difference of a colour is ΔE00 ${delta}.`,
  differs: (place: string, kept: string, now: string) => `${place}: kept ${kept}, now ${now}`,
  further: (n: number) => `and ${count(n, 'other', 'others')}`,
  nothingThere: 'nothing',
  where: 'Where they differ',
  nowShown: 'What the sheet shows is what came out now. Ask the sender before you rely on either.',
  each: 'Why, photo by photo',
  asOpened: 'This is about the case as it was opened; what you change afterwards is yours.',
  unreadable: (name: string, why: string) => `${name} in the case could not be opened as a photo: ${why}`,
  /** Before the reason. */
  leftOut: {
    work: 'The work in the case could not be opened and is left out:',
    swatches: 'The swatches in the case could not be opened and are left out:',
    limits: 'The limits for plans in the case could not be opened and are left out:',
  },
  dismiss: 'Close',
  // A photo that is not here.
  absentLine: 'The photo is not in the case. The numbers are those that were kept.',
  reducedLine: 'This is a reduced copy for the eye. The numbers are those that were kept.',
} as const;
