/** Coats as they were painted, where that was not as planned. */
import { signal } from '@preact/signals';
import { desk } from '../../engine/instance';
import type { Lab } from '../../engine/types';
import { book, work, type Work } from '../stains/work';
import type { ByThird, Third } from './frame';
import type { Painted } from './pass_model';

/** They belong to the plan that they were typed for. */
const typed = signal<{ plan: Work['plan']; coats: ByThird<number> } | null>(null);

const ofThisPlan = (): ByThird<number> => (typed.value?.plan === work.value?.plan ? (typed.value?.coats ?? {}) : {});

export const coatsOf = ({ zone, paint }: Painted): number => ofThisPlan()[zone] ?? paint.coats;

export function typeCoats(zone: Third, coats: number): void {
  if (work.value) typed.value = { plan: work.value.plan, coats: { ...ofThisPlan(), [zone]: coats } };
}

/** What was painted, and what is predicted of it: by the plan, moved by what the other coats change. */
export async function really(painted: readonly Painted[], { zones }: Work): Promise<Painted[]> {
  const others = painted.filter((p) => p.paint.mix.length > 0 && coatsOf(p) !== p.paint.coats);
  const requests = others.flatMap((p) => {
    const base = zones.find((z) => z.zone === p.zone)!.from;
    const mix = Object.fromEntries(p.paint.mix.map(({ stain, parts }) => [stain, parts / 10]));
    return [p.paint.coats, coatsOf(p)].map((coats, i) => ({ id: `${p.zone} ${i}`, base, mix, coats }));
  });
  const answers = requests.length > 0 ? await desk.stains.predict(book.value, requests) : [];
  const answer = (p: Painted, i: number) => answers.find((a) => a.id === `${p.zone} ${i}`);
  return painted.map((p) => {
    const [planned, done] = [answer(p, 0), answer(p, 1)];
    if (!planned || !done) return p;
    const lab = p.predicted.lab.map((v, i) => v + done.lab[i]! - planned.lab[i]!) as Lab;
    return { zone: p.zone, paint: { ...p.paint, coats: coatsOf(p) }, predicted: { lab, doubt: Math.max(p.predicted.doubt, done.doubt) } };
  });
}
