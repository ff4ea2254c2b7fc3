// The one table at the end of a walk.

const mb = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;
const MOST_GROWTH = 0.1;
const NAMES = { own: 'the page’s objects', programs: 'programs' };

/** From the first look at rest to the last. */
const ends = ({ rests }) => ({ before: rests[0] ?? null, after: rests.length > 1 ? rests.at(-1) : null });
const growth = ({ before = null, after = null }, key) => (before && after ? after[key] / Math.max(1, before[key]) - 1 : null);
const grown = (memory, key) => {
  const by = growth(memory, key);
  return by === null ? 'not measured' : `${mb(memory.before[key])} → ${mb(memory.after[key])} (${by < 0 ? '' : '+'}${(100 * by).toFixed(1)} %)`;
};

/** Looks that a half needs: what a program holds goes up and down with the photos that are open. */
const ENOUGH = 4;

/** The most that the programs held in the first and in the second half of the looks after the warm part. */
function halves({ programs }) {
  const middle = Math.floor(programs.length / 2);
  const [first, second] = [programs.slice(0, middle), programs.slice(middle)].map((half) => Math.max(0, ...half));
  return middle < ENOUGH ? {} : { before: { programs: first }, after: { programs: second } };
}

/** What is wrong with a walk, in words; empty when nothing is. */
export function faults({ problems, memory }) {
  const found = problems.map(({ step, kind, text }) => `step ${step}: ${kind}: ${text}`);
  for (const [key, of] of [['own', ends(memory)], ['programs', halves(memory)]]) {
    if ((growth(of, key) ?? 0) > MOST_GROWTH) found.push(`memory: ${NAMES[key]} grew by more than ${100 * MOST_GROWTH} %: ${grown(of, key)}`);
  }
  return found;
}

export function tableOf(result) {
  const { seed, steps, minutes, counts, missed, cases, slowest, memory, problems } = result;
  const rest = ends(memory);
  const between = memory.rests.map((held) => (held ? `${mb(held.own)} with ${held.nodes} nodes` : 'not reached')).join(', ');
  const of = (...kinds) => problems.filter(({ kind }) => kinds.includes(kind)).length;
  const rows = [
    ['seed', seed], ['minutes', minutes.toFixed(1)], ['steps', steps], ['missed (target gone)', missed],
    ['page errors, unhandled rejections', of('page error', 'crash')], ['console errors', of('console error')], ['policy violations', of('policy')],
    ['dialogs or views that do not close', of('dialog', 'stuck', 'covered', 'browser dialog', 'window')], ['page or worker without an answer', of('page', 'worker', 'blank')],
    ['slowest answer', `${Math.round(slowest)} ms`], ['cases lost', of('case lost')],
    ['cases kept, at most, removed by the walk', `${cases.count}, ${cases.most}, ${cases.removed}`], ['cases opened after a last reload', cases.opened],
    ['page’s objects and DOM at rest', grown(rest, 'own')], ['each look at rest', between || 'none'], ['not of them: compiled code; kept pictures; what the driver holds and notes', ['code', 'pictures', 'driver'].map((key) => grown(rest, key)).join('; ')], ['programs’ memory at most, by halves', grown(halves(memory), 'programs')],
    ['DOM nodes, listeners', rest.before && rest.after ? `${rest.before.nodes} → ${rest.after.nodes}, ${rest.before.listeners} → ${rest.after.listeners}` : 'not measured'],
    ['actions', Object.entries(counts).sort(([, a], [, b]) => b - a).map(([kind, n]) => `${kind} ${n}`).join(', ')],
  ];
  const width = Math.max(...rows.map(([name]) => name.length));
  return rows.map(([name, value]) => `${name.padEnd(width)}  ${value}`).join('\n');
}
