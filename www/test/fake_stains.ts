/**
 * Made-up answers about stains, for tests of the page's plumbing: each coat shifts the colour by the
 * mean of its swatches per coat, plans try whole coats of single stains and of one mix. No model.
 */
import { THIRDS } from '../src/engine/types';
import type {
  FittedBook, Lab, Paint, Plan, PlanLimits, PlanRequest, PlanStep, Prediction, PredictRequest, Strength, Swatch, SwatchBook, SwatchCheck, Verdict, Zone, ZonePlan,
} from '../src/engine/types';
import { infoOf, stainNames, swatchesOf } from '../src/state/stains/book';

const add = (lab: Lab, shift: Lab, by: number): Lab => lab.map((v, i) => v + by * shift[i]!) as Lab;
export const apart = (p: Lab, q: Lab): number => Math.hypot(...p.map((v, i) => v - q[i]!)) * 0.8;
const mean = (labs: readonly Lab[]): Lab => [0, 1, 2].map((i) => labs.reduce((sum, lab) => sum + lab[i]!, 0) / labs.length) as Lab;

const perCoat = ({ base, after, coats }: Swatch): Lab => after.map((v, i) => (v - base[i]!) / coats) as Lab;
const shiftOf = (book: SwatchBook, stain: string): Lab | null => {
  const found = swatchesOf(book, stain);
  return found.length ? mean(found.map((s) => perCoat(s.swatch))) : null;
};

export function fakeFit(book: SwatchBook): FittedBook {
  const checks: SwatchCheck[] = [];
  const strengths = stainNames(book).flatMap((stain): Strength[] => {
    const found = swatchesOf(book, stain).map((s) => s.swatch);
    const shift = shiftOf(book, stain);
    if (!shift) {
      checks.push({ code: 'no-swatch', severity: 'note', text: `${stain} has no swatch.`, remedy: 'Fire one.', stain });
      return [];
    }
    if (found.length === 1) checks.push({ code: 'one-swatch', severity: 'note', text: `${stain} has one swatch only.`, remedy: 'Fire two more, at 2 and 3 coats.', stain });
    const base = mean(found.map((s) => s.base));
    const words = shift[0] < 0 ? 'lowers value, adds chroma' : 'raises value';
    return [{ stain, glaze: infoOf(book, stain).glaze ?? false, swatches: found.length, base, one_coat: add(base, shift, 1), doubt: 0.8, lightens: shift[0] > 1, opacity: 0.07, words, residual: 0.3 }];
  });
  book.swatches.forEach((s, swatch) => {
    if (s.base[0] < 40) checks.unshift({ code: 'base-unlike', severity: 'retake', text: `The base is darker than any ceramic (L* ${s.base[0]}).`, remedy: 'Type it again.', swatch, ...(s.stain && { stain: s.stain }) });
  });
  return { demo: book.demo ?? false, strengths, reading_noise: 0.4, checks };
}

export const fakePredict = (book: SwatchBook, requests: readonly PredictRequest[]): Prediction[] =>
  requests.map(({ id, base, mix, coats }) => ({ id, lab: Object.entries(mix).reduce((lab, [stain, share]) => add(lab, shiftOf(book, stain) ?? [0, 0, 0], share * coats), base), doubt: 0.9 }));

const verdictOf = (delta: number): Verdict => (delta < 0.8 ? 'not_seen' : delta < 1.8 ? 'accepted' : 'disturbing');

function bestPaint(book: SwatchBook, from: Lab, to: Lab, { coats_per_firing, firings, stains_per_mix, stains }: PlanLimits): { paint: Paint; lab: Lab } {
  const names = stainNames(book).filter((n) => !infoOf(book, n).glaze && !infoOf(book, n).resting && shiftOf(book, n) && (stains.length === 0 || stains.includes(n)));
  const singles = names.map((stain) => [{ stain, parts: 10 }]);
  const pairs = stains_per_mix > 1 ? names.flatMap((a) => names.filter((b) => b !== a).flatMap((b) => [6, 8].map((parts) => [{ stain: a, parts }, { stain: b, parts: 10 - parts }]))) : [];
  let best: { paint: Paint; lab: Lab } = { paint: { mix: [], coats: 0 }, lab: from };
  for (const mix of [...singles, ...pairs]) {
    for (let coats = 0.25; coats <= coats_per_firing * firings; coats += 0.25) {
      const lab = mix.reduce((sum, { stain, parts }) => add(sum, shiftOf(book, stain)!, (coats * parts) / 10), from);
      if (apart(lab, to) < apart(best.lab, to) - 0.02) best = { paint: { mix, coats }, lab };
    }
  }
  return best;
}

export function fakePlan(book: SwatchBook, request: PlanRequest): Plan {
  const limits: PlanLimits = { coats_per_firing: 3, firings: 2, stains_per_mix: 2, stains: [], may_lighten: true, foundation: true, ...request.limits };
  const zones = THIRDS.flatMap((third): ZonePlan[] => {
    const asked = request.zones.find((z) => z.zone === third);
    if (!asked) return [];
    const { paint, lab } = bestPaint(book, asked.from, asked.to, limits);
    const after = apart(lab, asked.to);
    return [{
      zone: third, from: asked.from, to: asked.to, paint, predicted: { lab, doubt: 0.9 }, before_delta_e_00: apart(asked.from, asked.to), after_delta_e_00: after,
      verdict: verdictOf(after), words: after < 0.8 ? 'Hardly to be told from the target.' : 'A little lighter than the target.', firings: Math.ceil(paint.coats / limits.coats_per_firing), opacity: 0.1,
    }];
  });
  const firings = Math.max(0, ...zones.map((z) => z.firings));
  const steps: PlanStep[] = [];
  for (let firing = 1; firing <= firings; firing++) {
    if (firing === 1 && limits.foundation) steps.push({ kind: 'foundation', firing, zones: [], feather: [], title: 'Foundation: one thin coat of glaze', stroke: 'One even coat over the whole surface.', look: 'A wet shine without pools.', expect: [] });
    for (const z of zones.filter((z) => z.paint.coats > limits.coats_per_firing * (firing - 1))) {
      const coats = Math.min(limits.coats_per_firing, z.paint.coats - limits.coats_per_firing * (firing - 1));
      const into: Zone = z.zone === 'middle' ? 'incisal' : 'middle';
      steps.push({
        kind: 'paint', firing, zones: [z.zone], paint: { mix: z.paint.mix, coats }, feather: [{ into, share: 0.3 }], title: `${z.zone}: ${z.paint.mix.map((m) => m.stain).join(' and ')}, ${coats} coats`,
        stroke: 'From the middle outwards, along the neck.', look: 'Even, without an edge; a little darker than the target.', expect: [z.predicted],
      });
    }
    steps.push({ kind: 'look', firing, zones: [], feather: [], title: 'Look before firing', stroke: 'Under the light you photograph in.', look: 'No pools, no edges.', expect: [] });
    steps.push({ kind: 'fire', firing, zones: [], feather: [], title: 'Fire', stroke: 'As the instructions of ceramic, stain and furnace say.', look: '', expect: [] });
    steps.push({ kind: 'photograph', firing, zones: [], feather: [], title: 'Photograph and read', stroke: 'Same card, same tabs, same light.', look: '', expect: [] });
  }
  const lighter = zones.filter((z) => z.to[0] > z.from[0] + 0.5);
  return {
    demo: book.demo ?? false, limits, zones, steps, firings, ...(firings === 0 && { leave: 'No stain at hand brings it nearer.' }),
    shortfalls: lighter.map((z) => ({ code: 'target-lighter', zone: z.zone, text: `The target is lighter by ΔL* ${(z.to[0] - z.from[0]).toFixed(1)}; no stain of the book lightens.`, instead: ['Remake on a lighter base.', 'Accept the difference.'] })),
    cautions: ['Follow the instructions of the ceramic, the stain and the furnace.', 'Numbers are predicted from fired swatches; the photo after firing decides.'],
  };
}
