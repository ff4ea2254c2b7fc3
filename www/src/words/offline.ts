export const offline = {
  newHere: 'A new version of Tabside is here.',
  newHint: 'Nothing changes by itself: it begins when you next open the page after closing it, or now if you like.',
  newFile: 'All of it is on this device already.',
  useNow: 'Use it now',
  unsaved: 'There is work in this window that is not saved; the new version begins without it. Save it first, or go on.',
  useNowUnsaved: 'Use it now, without what is not saved',
  notNow: 'Not now',
  states: {
    texts: {
      changing: 'Changing to the new version …',
      otherWindows: 'Tabside is open in another window or tab as well. Close the others first: they would go on with parts of two versions.',
      noAnswer: 'The new version did not begin. Close all windows of Tabside and open it again; until then this version goes on as it is.',
    },
  },
};
