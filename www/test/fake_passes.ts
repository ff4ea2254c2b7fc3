/** Made-up answers about passes, looks before firing and exercises, for tests of the page's plumbing. No model. */
import type { Pass, PassAdvice, PassReview, PracticeRequest, PracticeScore, SwatchBook, UnfiredAdvice, UnfiredLook, UnfiredRequest, Verdict } from '../src/engine/types';
import { apart } from './fake_stains';

const verdictOf = (delta: number): Verdict => (delta < 0.8 ? 'not_seen' : delta < 1.8 ? 'accepted' : 'disturbing');

export function fakeReview(book: SwatchBook, { zones }: Pass): PassReview {
  if (book.swatches.length === 0) throw { kind: 'input', message: 'The book has no swatch that can be used.' };
  const seen = zones.map(({ zone, before, predicted, predicted_doubt, got, target }) => {
    const [left, miss] = [apart(got, target), apart(got, predicted)];
    return {
      zone, before_delta_e_00: apart(before, target), left_delta_e_00: left, verdict: verdictOf(left), miss_delta_e_00: miss, as_predicted: miss <= predicted_doubt,
      words: miss <= predicted_doubt ? 'Came out as predicted.' : `Came out ${got[0] > predicted[0] ? 'lighter' : 'darker'} than predicted, ΔE00 ${miss.toFixed(1)}.`,
    };
  });
  const worst = Math.max(0, ...seen.map((z) => z.left_delta_e_00));
  const within = zones.every(({ got, target, doubt }) => apart(got, target) <= doubt);
  const advice: PassAdvice = worst < 0.8 ? 'stop_below_perceptibility' : within ? 'stop_within_doubt' : 'go';
  return { advice, words: advice === 'go' ? `Another pass would help: the worst third is ΔE00 ${worst.toFixed(1)} from its target.` : 'Stop here: what is left is not worth another firing.', zones: seen };
}

export function fakeLook({ swatches }: SwatchBook, { zones }: UnfiredRequest): UnfiredLook {
  const pairs = swatches.filter((s) => s.unfired).length;
  return {
    directions_only: pairs < 3,
    words: pairs < 3 ? `Directions only: ${pairs} pairs of unfired and fired readings are known; 3 are needed.` : 'The shift from unfired to fired is known.',
    zones: zones.map(({ zone, before, unfired, predicted, doubt, blotch, blotch_before }) => {
      const [done, meant] = [apart(before, unfired), apart(before, predicted)];
      const patchy = blotch !== undefined && blotch_before !== undefined && blotch > blotch_before + 0.8;
      const first: UnfiredAdvice = doubt > 4 ? 'cannot_tell' : done > 1.4 * meant ? 'thin' : done < 0.6 * meant ? 'add' : 'leave';
      return { zone, advice: patchy ? (['spread', first] as UnfiredAdvice[]).filter((a) => a !== 'leave') : [first], words: `It has gone ΔE00 ${done.toFixed(1)} of the ${meant.toFixed(1)} that are meant.` };
    }),
  };
}

export function fakeScore({ zones }: PracticeRequest): PracticeScore {
  const mean = (values: number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  const [colour, start] = [mean(zones.map((z) => apart(z.got, z.target))), mean(zones.map((z) => apart(z.base, z.target)))];
  return {
    colour, gradient: 0.7, way: Math.max(0, 1 - colour / start), words: 'A little too light at the neck: half a coat more there.',
    ...(zones.some((z) => z.blotch !== undefined) && { evenness: Math.max(0, ...zones.map((z) => (z.blotch ?? 0) - (z.target_blotch ?? 0))) }),
    zones: zones.map((z) => {
      const left = apart(z.got, z.target);
      return { zone: z.zone, start_delta_e_00: apart(z.base, z.target), left_delta_e_00: left, verdict: verdictOf(left), words: 'a little lighter' };
    }),
  };
}
