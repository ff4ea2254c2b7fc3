/** Whether the cards of two photos bear the same print. Pure. */
import type { Lab, Scene } from '../../engine/types';

/** Printed values nearer than this are the same print. */
const SAME_PRINT = 0.1;

/** L* of a grey by the share of light it reflects (CIE 15, above 0.9 % of light). */
const greyOf = (share: number): Lab => [116 * Math.cbrt(share) - 16, 0, 0];

/** The colours that are printed on a scene's card; none when nobody said. */
function printed({ card }: Scene): Lab[] {
  if (card?.steps?.length) return card.steps.map((s) => s.lab);
  if (card?.lab) return [card.lab];
  return card?.reflectance === undefined ? [] : [greyOf(card.reflectance)];
}

export type Cards = 'same' | 'different' | 'unknown';

export function cardsOf(a: Scene, b: Scene): Cards {
  const [ours, theirs] = [printed(a), printed(b)];
  if (ours.length === 0 || theirs.length === 0) return 'unknown';
  const alike = ours.length === theirs.length && ours.every((lab, i) => lab.every((v, axis) => Math.abs(v - theirs[i]![axis]!) <= SAME_PRINT));
  return alike ? 'same' : 'different';
}
