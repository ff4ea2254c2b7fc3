export const privacy = {
  title: 'What is kept where, and how to erase it',
  stays: 'Nothing leaves this device by itself. Photos are read and everything is calculated here; the page fetches nothing but its own files, and sends nothing to anyone.',
  hand: 'What leaves is what you hand over: a file that you save and pass on, numbers that you copy, a sheet that you print.',
  kept: 'Kept on this device',
  what: 'What',
  where: 'Where',
  places: {
    texts: {
      cases: 'Cases: photos (freed of place and serial numbers), outlines, notes, readings, the work with its plan and passes',
      swatches: 'Swatches and practice',
      settings: 'Settings: language, page around the pictures, keys, the word for the patient',
      program: 'The program itself, for use without a network',
    },
  },
  inBrowser: {
    texts: {
      database: 'This browser’s storage (IndexedDB, “tabside”)',
      both: 'Both of these, so that a crash loses nothing',
      local: 'This browser’s storage (local storage, “tabside.…”)',
      copy: 'This browser’s cache: its own files, nothing of yours',
    },
  },
  program: {
    texts: {
      kept: 'It is all here: the page opens and works without a network.',
      none: 'There is no copy here yet, or this browser keeps none: without a network the page may not open again.',
      file: 'This is the edition in a single file: the file is the program, and needs no network.',
    },
  },
  who: 'Whoever uses this browser on this device can see what is kept. A browser may clear its storage by itself, when space is short or a site was not visited for long, and always after a private window: what matters belongs in a saved case file.',
  inCase: 'In a case file',
  caseHolds: 'Photos as you opened them, freed of the place where they were taken, of serial numbers and of names that the camera wrote; outlines, readings, notes, swatches, plan. Names of files and what you typed stay in it as they are: look through them before you pass it on. Without a passphrase, whoever has the file can read it.',
  erase: 'Erase everything kept on this device',
  eraseAsk: 'This erases the kept photos and cases, swatches, plan and practice, the settings, and the program’s copy for use without a network; what is open in this window too. It cannot be undone. Files that you saved stay where you put them.',
  eraseYes: 'Yes, erase it all now',
  eraseNo: 'No, keep it',
  erasing: 'Erasing …',
  erased: 'Everything kept on this device is erased.',
  erasedHint: 'You can close this window now. To go on, begin anew: the program comes back as on a first visit.',
  notErased: 'Not everything could be erased.',
  left: {
    texts: {
      database: 'Photos and cases are still kept: another window of Tabside holds them open. Close all others, then try again.',
      storage: 'This browser did not give up swatches and settings. Erase the data of this site in the browser’s own settings.',
      copy: 'This browser did not give up the program’s files. Erase the data of this site in the browser’s own settings.',
    },
  },
  again: 'Try again',
  anew: 'Begin anew',
};
