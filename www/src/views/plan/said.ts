/** A plan's parts as words. */
import { coatsText } from '../../charts/coats_layout';
import { fixed } from '../../charts/format';
import type { Lab, Paint } from '../../engine/types';
import { words } from '../../words';

/** Without text when nothing is painted. */
export const mixText = ({ mix }: Paint): string => (mix.length === 1 ? mix[0]!.stain : words.plan.mix(mix.map(({ parts, stain }) => words.plan.part(parts, stain))));

export const coatsOf = (coats: number): string => words.plan.coats(coatsText(coats), coats <= 1);

export const paintText = (paint: Paint): string => (paint.coats > 0 ? `${coatsOf(paint.coats)} ${mixText(paint)}` : words.plan.nothing);

/** For columns headed L* a* b*. */
export const labNumbers = (lab: Lab): string => lab.map((v) => fixed(v)).join('\u2002');

export const labText = ([l, a, b]: Lab): string => words.plan.lab(fixed(l), fixed(a), fixed(b));
