/** What can be done and undone about stains, work, passes and practice. Import after `engine/instance` is a fake. */
import type { Lab } from '../src/engine/types';
import { fakePlan } from './fake_stains';
import type { Action } from './undo_actions';

const [s, inputs, planning, passes, unfired, practice, work, files, { reading }, { doc, endRun }] = await Promise.all([
  import('../src/state/stains/swatches'), import('../src/state/stains/plan_inputs'), import('../src/state/stains/planning'), import('../src/state/stains/passes'), import('../src/state/stains/unfired'), import('../src/state/stains/practice'), import('../src/state/stains/work'), import('../src/state/stains/work_files'), import('../src/state/reading'), import('../src/state/desk'),
]);
const { USUAL_LIMITS } = await import('../src/state/stains/stains_doc');
const { pick, typedIn } = await import('./undo_actions');
const { chosen, exercise, options } = await import('../src/state/practice/sides');

const BOOK = { demo: false, stains: [], swatches: [
  { stain: 'ochre', coats: 1, base: [78, 0, 15] as Lab, after: [76.6, 0.8, 18] as Lab },
  { stain: 'grey', coats: 1, base: [78, 0, 15] as Lab, after: [75.8, 0, 14.6] as Lab },
] };
const json = (value: unknown): Blob => new Blob([JSON.stringify(value)]);
const zones = (['cervical', 'middle'] as const).map((zone) => ({ zone, from: [76, 1, 15] as Lab, to: [73, 1.5, 20] as Lab, doubt: 1.7, blotch: 0.5 }));
const job = () => ({ label: 'Case 7', restoration: 'Restoration 21', target: 'Tooth 11', zones, plan: fakePlan(BOOK, { zones, limits: { ...USUAL_LIMITS, firings: 1 } }), ticks: [], passes: [] });

/** The reading of what is shown now. */
async function read(): Promise<void> {
  for (let i = 0; i < 40 && doc.value.photo && reading.value?.doc !== doc.value; i++) await new Promise((wait) => setTimeout(wait, 5));
}
const SWATCHES: readonly Action[] = [
  { name: 'open swatches', act: (dice) => s.openSwatches(json({ ...BOOK, swatches: [...BOOK.swatches, { ...BOOK.swatches[0], stain: `s${dice(9)}`, coats: 1 + dice(4) }] }), 'b.json') },
  { name: 'begin a draft', act: () => s.startDraft('umbra') },
  typedIn('type in the draft', (i) => s.editDraft({ note: `note ${i}` })),
  { name: 'fill the draft and keep it', act: (dice) => { s.startDraft(`umbra ${dice(5)}`); s.takeColour('base', [78, 1, 16], 1, 'tab'); s.takeColour('after', [76 - dice(5), 1.6, 17], 1.2, 'tab 3'); endRun(); s.keepDraft(); } },
  { name: 'drop the draft', act: s.dropDraft },
  { name: 'revise a swatch', act: (dice) => { if (s.ownBook.value.swatches.length) s.reviseSwatch(dice(s.ownBook.value.swatches.length)); } },
  { name: 'remove a swatch', act: (dice) => { if (s.ownBook.value.swatches.length) s.removeSwatch(dice(s.ownBook.value.swatches.length)); } },
  { name: 'describe a stain', act: (dice) => { const n = pick(dice, s.ownBook.value.swatches)?.stain; if (n) s.describeStain(n, { resting: dice(2) === 1, note: `${dice(99)}` }); } },
  { name: 'rename a stain', act: (dice) => { const n = pick(dice, s.ownBook.value.swatches)?.stain; if (n) s.renameStain(n, `name ${dice(999)}`); } },
  { name: 'remove a stain', act: (dice) => { const n = pick(dice, s.ownBook.value.swatches)?.stain; if (n) s.removeStain(n); } },
  typedIn('name the book', (i) => s.nameBook(`book ${i}`)),
  { name: 'empty the book', act: s.emptyBook },
  { name: 'use the demo’s stains', act: () => s.openSwatches(json({ ...BOOK, demo: true }), 'demo') },
  { name: 'leave the lent stains', act: s.leaveLent },
];

const PLANS: readonly Action[] = [
  { name: 'limits', act: (dice) => inputs.changeLimits({ firings: 1 + dice(3) }) },
  { name: 'a stain allowed or not', act: (dice) => inputs.allowStain('ochre', dice(2) === 1) },
  { name: 'type colours, or not', act: (dice) => inputs.typeColours(dice(2) === 1) },
  typedIn('type a third', (i) => inputs.typeZone('middle', { from: [`${70 + (i % 9)}`, '0', '14'], to: ['72', '1', '18'] })),
  { name: 'open a work', act: () => files.openWork(json(job()), 'w.work.json') },
  typedIn('name the work', (i) => planning.nameWork(`case ${i}`)),
  { name: 'tick a step', act: (dice) => work.tick(dice(work.work.value?.plan.steps.length ?? 1), dice(3) > 0) },
  { name: 'plan again', act: planning.planAgain },
  { name: 'put the work away', act: () => { if (work.work.value) planning.putAway(); } },
  { name: 'look before firing', act: async () => { await read(); await unfired.lookUnfired(); } },
  { name: 'forget the look', act: unfired.forgetUnfired },
  { name: 'record a pass', act: async () => { await read(); await passes.recordPass(); } },
  { name: 'plan the next pass', act: passes.planNextPass },
  { name: 'take a pass back', act: passes.takePassBack },
  { name: 'learn from a pass, or not', act: (dice) => { const kept = passes.lastPass.value; if (kept) passes.learnFrom(kept, 1, dice(2) === 1); } },
];

const PRACTICE: readonly Action[] = [
  typedIn('say who', (i) => practice.sayWho(`N. ${i}`)),
  { name: 'an exercise', act: async () => { await read(); chosen.value = {}; await practice.planExercise(); } },
  // What came of it stands elsewhere in another photo; the fake engine reads by place.
  { name: 'score', act: async () => { await read(); chosen.value = { got: options.value.at(-1)?.id ?? '', now: options.value[0]?.id ?? '' }; await practice.scoreResult(); } },
  { name: 'remove an attempt', act: () => { if (exercise.value.attempts.length) practice.removeAttempt(0); } },
];

export const ON_STAINS: readonly Action[] = [...SWATCHES, ...PLANS, ...PRACTICE];
