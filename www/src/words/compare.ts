import type { Cards } from '../state/compare/cards';
import type { Side } from '../state/compare/compare_model';
import type { Telling } from '../state/compare/tabs_check_model';

export const compare = {
  title: 'Compare across photos',
  hint: 'A restoration in one photo against a tooth in another.',
  more: 'To compare, a second photo is needed that shows the restoration or the tooth. Add it above.',
  nothing: 'Nothing is outlined in these photos that could be compared. Outline a tooth or a restoration first.',
  choose: { restoration: 'Judge', target: 'Compare with' } satisfies Record<Side, string>,
  /** May break where the soft hyphen is. */
  role: { restoration: 'Judged', target: 'Com\u00adpared with' } satisfies Record<Side, string>,
  exchange: 'Exchange the two',
  pictureOf: (what: string, photo: string) => `${what} in ${photo}, turned upright, cervical end on top, balanced by its own card`,
  sheet: 'The two along the long axis',
  nearest: 'Nearest tab',
  nearestHint: 'of each',
  /** Where both stand in one column. */
  alsoNearest: 'then the nearest tab of each',
  valueHint: 'lighter to the right',
  chromaHint: 'more colour to the right',
  differenceHint: (side: string, other: string) => `${side} against ${other}`,
  noNumber: 'No number here',
  asNear: (names: string) => `or ${names}`,
  unsure: 'smaller than its doubt: it cannot be told',
  across: 'Each photo stands on its own card, so the doubts of both add up (as squares). Comparing inside one photo is safer: put both in one photo if you can.',
  inside: 'Both are in one photo, under the same light and card: this is the safer way to compare.',
  cards: {
    /** The same print needs no words. */
    texts: {
      different: 'The two photos have cards of different printed colours. Each is taken at its printed value; if one of the prints is off, the difference is off by as much, and the ± does not know of it.',
      unknown: 'What is printed on the cards is not given for both; a card without it is taken for mid-grey. If the two cards differ, the difference is off by as much, and the ± does not know of it. Say in both photos what is printed on the card.',
    } satisfies Record<Exclude<Cards, 'same'>, string>,
  },
  suspected: (what: string, photo: string) => `${what} in ${photo} is taken as the restoration until you say: answer the question there.`,
  /** The comparison may be looked at; a plan needs the answer. */
  noPlanYet: 'No plan can be made before that.',
  answer: (photo: string) => `Answer in ${photo}`,
  rungs: (a: string, rungA: string, b: string, rungB: string) => `The two photos are not trusted alike: ${a} stands on: ${rungA}; ${b} stands on: ${rungB}. The ± of each takes that into account.`,
  strip: 'The middle of each, one height, each balanced by its own card. The pictures are for the eye; the numbers were read from the photos.',
  reasons: {
    title: (what: string, photo: string) => `${what} in ${photo} gives no numbers.`,
    waiting: 'The photo is still being read …',
    'no-reading': 'The outline could not be read. Look at the photo: its reading says why.',
    unread: (why: string) => `The photo could not be read. ${why}`,
  },
  look: (photo: string) => `Look at ${photo}`,
  noThird: 'No third could be read in both.',
  failed: 'The comparison could not be made.',
  plan: 'Plan from this comparison',
  planHint: (doubts: string) => `The plan takes over the colours with their doubt: ${doubts}.`,
  planDoubt: (zone: string, doubt: string) => `± ${doubt} (${zone.toLowerCase()})`,
  planWork: 'A job is at hand: its plan is shown until you put it away. The colours wait below it.',
  planned: 'The colours of both are in the plan.',
  edits: { plan: 'plan from a comparison' },
  tabs: {
    title: 'Tab against tab',
    gist: (told: number, of: number) => `${told} of ${of} told apart`,
    caption:
      'What it is for: a photo that cannot tell A1 from A3 as the guide does cannot tell the tooth either. Compared are the middle thirds as read here, and by the guide. “Apart by” is how far the two differences lie from each other in value, chroma and hue. Published averages are not your tabs: tabs differ from set to set.',
    wholeTabs: 'The guide has one colour for the whole tab, which is compared with the middle third.',
    measured: 'The guide in use is measured: these are your own tabs.',
    anchored: (n: number) => `The light of this photo was already put right by ${n === 1 ? 'one of these tabs' : `${n} of these tabs`}, so part of the agreement was made.`,
    pair: 'Tabs',
    read: 'In this photo',
    guide: 'By the guide',
    apart: 'Apart by',
    told: 'This photo tells them apart',
    names: (a: string, b: string) => `${a} and ${b}`,
    telling: {
      texts: {
        'as-guide': 'as the guide says',
        nearly: 'nearly as the guide says',
        otherwise: 'otherwise than the guide says',
        turned: 'the other way round: check the names',
        'not-told': 'not at all, though the guide does',
      } satisfies Record<Telling, string>,
    },
    all: (of: number) => (of === 1 ? 'This photo tells the two tabs apart as the guide says, or nearly so.' : `This photo tells all ${of} pairs of tabs apart as the guide says, or nearly so.`),
    some: (told: number, of: number, worst: string) => `This photo tells ${told} of ${of} ${of === 1 ? 'pair' : 'pairs'} of tabs apart as the guide says, or nearly so. Worst: ${worst}.`,
    more: (n: number) => `Show all ${n} pairs`,
    none: 'For this, two tabs with names that the guide knows have to be read.',
    waiting: 'The tabs are being compared …',
  },
};
