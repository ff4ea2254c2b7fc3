/** A work as a file: plain JSON, checked before it takes the place of what is at hand. */
import { ZONES, type PlanLimits, type RegionKind } from '../../engine/types';
import { array, FileError, labFrom, number, parsed, record } from '../scene_file';
import { bookFrom } from '../stains/book_file';
import { USUAL_LIMITS } from '../stains/stains_doc';
import type { Work } from '../stains/work';

type Check = (value: unknown) => void;

const MAX_LIST = 1000;
const MAX_TEXT = 5000;

const wrong = (): never => {
  throw new FileError('work');
};
const said: Check = (v) => (typeof v === 'string' && v.length <= MAX_TEXT) || wrong();
const num: Check = (v) => void number(v, 'work');
const flag: Check = (v) => typeof v === 'boolean' || wrong();
const lab: Check = (v) => void labFrom(v);
const maybe = (check: Check): Check => (v) => v == null || check(v);
const one = (...all: string[]): Check => (v) => all.includes(v as string) || wrong();
const list = (check: Check, max = MAX_LIST): Check => (v) => array(v, max, 'work').forEach(check);
const fields = (checks: Record<string, Check>): Check => (v) => {
  const found = record(v, 'work');
  for (const [key, check] of Object.entries(checks)) check(found[key]);
};

const zone = one(...ZONES);
const verdict = one('not_seen', 'accepted', 'disturbing');
const thirds = (check: Check): Check => fields({ cervical: maybe(check), middle: maybe(check), incisal: maybe(check) });
const limits = fields({ coats_per_firing: maybe(num), firings: maybe(num), stains_per_mix: maybe(num), stains: maybe(list(said)), may_lighten: maybe(flag), foundation: maybe(flag) });
const paint = fields({ mix: list(fields({ stain: said, parts: num })), coats: num });
const predicted = fields({ lab, doubt: num });
const step = fields({
  kind: one('foundation', 'paint', 'look', 'fire', 'photograph'), firing: num, zones: list(zone), paint: maybe(paint), feather: maybe(list(fields({ into: zone, share: num }))),
  title: said, stroke: said, look: said, expect: list(predicted),
});
const plan = fields({
  demo: flag, limits, firings: num, leave: maybe(said), steps: list(step), cautions: list(said),
  zones: list(fields({ zone, from: lab, to: lab, paint, predicted, before_delta_e_00: num, after_delta_e_00: num, verdict, words: said, firings: num })),
  shortfalls: list(fields({ code: said, zone, text: said, instead: list(said) })),
});
const spots = thirds(fields({ lab, doubt: num, doubt_in_photo: num, blotch: maybe(num) }));
const look = fields({
  directions_only: flag, words: said,
  zones: list(fields({ zone, advice: list(one('leave', 'thin', 'add', 'spread', 'cannot_tell')), fired: maybe(lab), fired_doubt: maybe(num), words: said })),
});
const review = fields({
  advice: said, words: said,
  zones: list(fields({ zone, before_delta_e_00: num, left_delta_e_00: num, verdict, miss_delta_e_00: num, as_predicted: flag, words: said })),
});
const pass = fields({
  pass: fields({ foundation: maybe(flag), limits: maybe(limits), zones: list(fields({ zone, paint, before: lab, predicted: lab, predicted_doubt: num, got: lab, target: lab, doubt: num })) }),
  review, swatches: (v) => void bookFrom({ swatches: v }), blotch: thirds(fields({ before: maybe(num), after: maybe(num), target: maybe(num) })),
  carried: flag, drift: maybe(num), photo: said, at: said,
});
const kinds: Record<RegionKind, true> = { tooth: true, restoration: true, tab: true };
const outline = fields({ kind: one(...Object.keys(kinds)), own: said });
const called: Check = (v) => v === null || (typeof v === 'string' ? said : outline)(v);
const job = fields({
  label: said, restoration: called, target: called, zones: list(fields({ zone, from: lab, to: lab, doubt: maybe(num), blotch: maybe(num) })), plan, ticks: list(num),
  passes: list(pass), unfired: maybe(fields({ spots, target: spots, look, photo: said, at: said })),
});

/** What may be planned; what is missing is as usual. Throws a `FileError`. */
export function limitsFrom(value: unknown): PlanLimits {
  limits(value);
  return { ...USUAL_LIMITS, ...(value as Partial<PlanLimits>) };
}

export const workToJson = (work: Work): string => `${JSON.stringify(work, null, 1)}\n`;

/** Throws a `FileError` when it is no work that was saved here. */
export function workFromJson(text: string): Work {
  const found = parsed(text);
  job(found);
  const work = found as Work;
  const places = new Set(work.plan.steps.keys());
  if (work.zones.length === 0 || !work.ticks.every((t) => places.has(t))) wrong();
  return work;
}
