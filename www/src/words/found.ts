/** What was found without a tap, what is proposed, and how an outline is mended. */
const count = (n: number, one: string, many: string): string => (n === 1 ? `1 ${one}` : `${n} ${many}`);

function list(parts: readonly string[]): string {
  const last = parts.at(-1) ?? '';
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`;
}

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const found = {
  /** Empty when there was nothing. */
  what(card: boolean, tabs: number, teeth: number): string {
    const parts = [card && 'card', tabs > 0 && count(tabs, 'tab', 'tabs'), teeth > 0 && count(teeth, 'tooth', 'teeth')].filter((p) => p !== false);
    return parts.length ? `${upper(list(parts))} found.` : '';
  },
  mend: 'Tap what is missing. Tap a wrong outline to select it, and again for another one.',
  steps: (n: number) => `The card has ${n} grey steps; their printed values can be typed in.`,
  nothing: 'Nothing was found automatically. A few taps will do.',
  nothingMore: 'Nothing more was found. Tap what is missing.',
  cancelled: 'The search was stopped. Mark the photo by tapping.',
  notThere: 'Nothing stands out there. Press step 2, 3 or 4 first to outline it all the same.',
  searching: 'Looking for card, tabs and teeth …',
  again: 'Find card, tabs and teeth again',
  ask: (what: string) => `Is ${what} the restoration?`,
  askShort: 'Restoration?',
  why: 'It differs most from the teeth beside it.',
  yes: 'Yes',
  another: 'Another one',
  none: 'There is none',
  against: (what: string, target: string) => `${what} is compared with ${target}.`,
  againstHow: 'To compare with another one, tap it and press “Compare with this one”.',
  nameTabs: 'Which tabs are these?',
  nameTabsHint: 'Press one, then its name; the next one follows.',
  nameOne: (what: string) => `Name of ${what}`,
  nameLater: 'Later',
  outlineOf: (n: number, of: number) => `Outline ${n} of ${of}`,
  other: 'Other outline',
  otherLong: 'The next best outline for this place (or tap the outline again)',
  noOther: 'There is no other outline for this place.',
  cut: 'Cut',
  cutLong: 'Cut this outline in two (or swipe right across it)',
  cutHere: 'Cut here',
  cutTurn: 'Turn the line',
  cutKeep: 'Do not cut',
  cutEnd: (n: number, what: string) => `End ${n} of the line that cuts ${what}. Arrow keys move it.`,
  notCut: 'Not cut: the line has to enter the outline and leave it again.',
  cutInTwo: 'Cut in two.',
  trimmed: 'Trimmed.',
  roles: 'What it is',
  role: { tooth: 'Tooth', restoration: 'Restoration', tab: 'Tab' },
  compare: 'Compare',
  compareRest: 'with this one',
  compareLong: 'Compare the restoration with this one',
  cardSteps: {
    title: (n: number) => `${n} grey steps were found on the card`,
    why: 'Type the values printed on it (L*a*b*, D65). A step without L* is left out; an empty a* or b* counts as 0.',
    step: (n: number, of: number) => `Step ${n}${n === 1 ? ', lightest' : n === of ? ', darkest' : ''}`,
    use: 'Use these values',
    range: 'L* has to be from 1 to 100, a* and b* from −30 to 30.',
    few: 'At least two steps need their L*.',
  },
  borders: {
    title: 'Borders of the thirds, in per cent of the axis from the cervical end',
    names: ['Cervical third ends at (%)', 'Middle third ends at (%)'],
    even: 'Even thirds',
    handle: (n: number, percent: number, what: string) => `${n === 0 ? 'End of the cervical third' : 'End of the middle third'} of ${what}, at ${percent} %. Arrow keys move it.`,
    short: (percent: number) => `${percent} %`,
    stretched: 'Thirds of your own are drawn to one height, so that they lie side by side.',
  },
};
