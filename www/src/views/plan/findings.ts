/** Findings of a plan: what several thirds have in common is said once. Pure. */
import { THIRDS, type Shortfall } from '../../engine/types';
import { words } from '../../words';
import { engineWords } from '../../words/engine';

export interface Finding extends Omit<Shortfall, 'zone'> {
  /** The thirds that it is about, in words. */
  readonly thirds: string;
}

const NUMBER = /[\d.]*\d/g;
/** The engine's sentences begin with their third. */
const bare = ({ text }: Shortfall): string => text.replace(/^(cervical|middle|incisal) third: /i, '');
/** Alike but for the numbers. */
const shapeOf = (s: Shortfall): string => [s.code, bare(s).replace(NUMBER, '#'), ...s.instead].join('\n');

/** Numbers stand in the order of the thirds; one that all share stands once. */
function oneText(alike: readonly Shortfall[]): string {
  const numbers = alike.map((s) => bare(s).match(NUMBER) ?? []);
  let at = 0;
  return bare(alike[0]!).replace(NUMBER, () => {
    const each = numbers.map((list) => list[at]!);
    at++;
    return new Set(each).size === 1 ? each[0]! : words.plan.listed(each);
  });
}

export function findingsOf(shortfalls: readonly Shortfall[]): Finding[] {
  return [...new Set(shortfalls.map(shapeOf))].map((shape) => {
    const alike = THIRDS.flatMap((zone) => shortfalls.filter((s) => s.zone === zone && shapeOf(s) === shape));
    const { code, instead } = alike[0]!;
    const names = alike.map((s) => words.names.zoneShort[s.zone]).map((name, i) => (i === 0 ? name : name.toLowerCase()));
    return { code, instead: instead.map(engineWords), text: engineWords(oneText(alike)), thirds: words.plan.zones(names) };
  });
}

/** Reached, but at a price. */
const PRICES: readonly string[] = ['lightened-at-a-price', 'opaque'];

/** One line of all that cannot be reached; empty when everything can. */
export function inShort(shortfalls: readonly Shortfall[]): string {
  const thirds = (some: readonly Shortfall[]) => new Set(some.map((s) => s.zone)).size;
  const short = thirds(shortfalls.filter((s) => !PRICES.includes(s.code)));
  if (short > 0) return words.plan.short(short);
  return shortfalls.length > 0 ? words.plan.atPrice(thirds(shortfalls)) : '';
}
