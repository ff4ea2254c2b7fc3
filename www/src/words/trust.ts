import type { Trust } from '../engine/types';

export const trust = {
  title: 'What the reading stands on',
  rungs: {
    card: 'Grey card',
    card_steps: 'Card with grey steps',
    card_and_tabs: 'Card and tabs',
    card_and_own_tabs: 'Card and own measured tabs',
  } satisfies Record<Trust, string>,
  here: 'here',
  raise: 'What would raise it',
  tabs: (n: number) => (n === 1 ? 'the tab behind it' : `the ${n} tabs behind it`),
  byTabs: (name: string, delta: string) => `${name}: the other tabs put it within ${delta} ΔE00 of its known colour.`,
  byCard: (name: string, delta: string) => `${name}: the card alone puts it within ${delta} ΔE00 of its known colour.`,
  unusedByTabs: (name: string, delta: string) => `${name} is not used: the other tabs put it ${delta} ΔE00 from its known colour.`,
  unusedByCard: (name: string, delta: string) => `${name} is not used: the card puts it ${delta} ΔE00 from its known colour.`,
  falloff: (percent: string) => `The light differs by ${percent} between the outlined places; that is corrected.`,
  toneCurve: 'The card’s steps show a tone curve; it has been undone.',
  polarised: 'This photo was taken through crossed polarisers',
  polarisedHint: 'Then it shows no glare, and none is taken out.',
  yes: 'Yes',
  no: 'No',
};
