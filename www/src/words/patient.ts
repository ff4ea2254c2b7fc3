/** What a patient reads: no number, no code, no name, nothing for certain that is not. */
import type { Beside, Said } from '../state/patient/facts';
import type { Look } from '../state/patient/looks';
import type { Remedy } from '../state/patient/remedy_model';
import type { Amount, Clause, Way, Where } from '../state/patient/sentence_model';
import type { Thing } from '../state/patient/thing';
import type { Third } from '../state/stains/typed_plan';

const listed = (parts: readonly string[]): string => parts.join(' and ');
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const BESIDE: Record<Beside, string> = { neighbour: 'the tooth beside it', tooth: 'the tooth it was compared with', sample: 'the sample it was compared with' };
const WAYS: Record<Way, string> = { brighter: 'brighter', darker: 'darker', stronger: 'stronger in colour', paler: 'paler', yellower: 'more yellowish', redder: 'more reddish' };
const AMOUNT: Record<Amount, string> = { little: 'a little', clearly: 'clearly', much: 'much' };
const DIFFERENT: Record<Amount, string> = { little: 'a little different', clearly: 'clearly different', much: 'very different' };
const THIRD: Record<Third, string> = { cervical: 'near the gum', middle: 'in the middle', incisal: 'near the edge' };

const where = ({ thirds, mostly }: Where): string => (thirds.length === 3 ? 'all over' : `${mostly ? 'mostly ' : ''}${listed(thirds.map((t) => THIRD[t]))}`);
const how = ({ amount, ways }: Clause): string => `${AMOUNT[amount]} ${listed(ways.map((w) => WAYS[w]))}`;

/** "Your crown is much brighter than the tooth beside it, mostly near the edge, and a little paler near the gum". */
const differs = ([first, ...others]: readonly Clause[], thing: Thing, beside: string): string =>
  first
    ? `your ${thing} is ${first.ways.length > 0 ? `${how(first)} than` : `${DIFFERENT[first.amount]} from`} ${beside}, ${where(first.where)}` +
      others.map((c) => `, and ${how(c)}${c.where.mostly ? ',' : ''} ${where(c.where)}`).join('')
    : '';

const coats = (n: number): string => `${['', 'one thin coat', 'two thin coats', 'three thin coats'][n] ?? 'several thin coats'} of paint`;

function remedied(remedy: Remedy | null, thing: Thing): string {
  if (!remedy) return '';
  if (remedy.kind === 'darkens') return '; paint of this kind can only darken, so your dentist will talk with you about other ways';
  if (remedy.kind === 'no-gain') return '; painting would not bring them closer';
  const end = {
    together: 'could bring them together',
    'closer-maybe': 'could bring them closer, and a small difference may stay',
    closer: 'could bring them closer, but a difference would stay',
  }[remedy.kind];
  return `; ${coats(remedy.coats)} ${end}${remedy.price ? `, and your ${thing} could look a little flatter` : ''}`;
}

export const patient = {
  show: 'Show the patient',
  notYet: 'There is nothing to show the patient yet.',
  title: 'For the patient',
  setup: 'Before you turn it round: this is a',
  kinds: { crown: 'crown', veneer: 'veneer' } satisfies Record<Thing, string>,
  ready: 'Hand it over',
  tooth: (beside: Beside) => (beside === 'sample' ? 'The sample' : 'Your tooth'),
  yours: (thing: Thing) => `Your ${thing}`,
  picture: (what: string, look: Look) => `${what}, upright, ${{ now: 'as it is', grey: 'its brightness only', painted: 'as calculated after painting' }[look]}`,
  waiting: 'The pictures are being made …',
  choice: 'What the pictures show',
  choose: { now: 'As it is', grey: 'Brightness only', painted: 'After painting' } satisfies Record<Look, string>,
  example: 'After painting (example)',
  shown: {
    grey: 'Light and dark only, without any colour.',
    painted: 'A calculated picture, not a promise.',
  } satisfies Record<Exclude<Look, 'now'>, string>,
  inventedShown: 'Only an example, with invented paints: it says nothing about your own tooth.',
  inColour: 'Here they look alike: the difference is in the colour.',
  slide: { label: 'From now to after painting', now: 'now', after: 'after', at: (share: number) => (share < 0.05 ? 'as it is now' : share < 0.4 ? 'a little painted' : share <= 0.6 ? 'half painted' : share < 0.95 ? 'mostly painted' : 'after painting') },
  said({ difference, remedy, beside: target, partly }: Said, thing: Thing): string {
    const beside = BESIDE[target];
    const text = {
      unsure: () => `with this photo no difference can be told for certain between your ${thing} and ${beside}`,
      alike: () => `your ${thing} and ${beside} are so alike that most people would not see a difference`,
      hardly: () => `your ${thing} and ${beside} are hardly different`,
      differs: () => (difference.kind === 'differs' ? differs(difference.clauses, thing, beside) : ''),
    }[difference.kind]();
    return `${capital(`${partly && difference.kind !== 'unsure' ? 'as far as the photo shows them, ' : ''}${text}${remedied(remedy, thing)}`)}.`;
  },
  decides: 'Your dentist decides what is done.',
  back: 'Back (hold)',
  holding: ['Keep holding …', 'Nearly …'],
  holdHint: 'Hold it for a moment to go back to the measurements. A short press asks first.',
  ask: 'Back to the measurements?',
  yes: 'Yes',
  no: 'No',
};
