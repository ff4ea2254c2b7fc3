// A user at random: `npm run wander -- [--minutes 60] [--seed 7] [--engine chromium] [--warm MINUTES, or steps of a replay] [--log FILE] [--snapshots FOLDER] [--replay FILE]`,
// with the page served at TABSIDE_URL. Every action is drawn from the seed and its step, and written to the
// log; the same seed draws the same where the page shows the same, and a replayed log does what it says.
// Exit status 1: an error, a policy violation, a dialog that does not close, no answer, a case lost, growth.
import { createWriteStream, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { faults, tableOf } from './wander/table.mjs';
import { walk } from './wander/walk.mjs';

const { values } = parseArgs({
  options: { minutes: { type: 'string' }, steps: { type: 'string' }, seed: { type: 'string', default: '7' }, engine: { type: 'string', default: 'chromium' }, warm: { type: 'string' }, log: { type: 'string' }, snapshots: { type: 'string' }, replay: { type: 'string' } },
});
const url = process.env.TABSIDE_URL;
if (!url) throw new Error('TABSIDE_URL must name the served page.');
if (values.engine !== 'chromium') throw new Error('Only chromium tells its memory; no other engine is walked in.');

const seed = Number(values.seed);
const minutes = values.minutes ? Number(values.minutes) : values.replay || values.steps ? Infinity : 60;
const replay = values.replay ? readFileSync(values.replay, 'utf8').trim().split('\n').map((line) => JSON.parse(line)) : null;
const file = values.log ?? join(tmpdir(), `tabside-wander-${seed}.jsonl`);
const out = createWriteStream(file);
const result = await walk({
  url, seed: replay?.[0]?.seed ?? seed, minutes, replay, steps: values.steps ? Number(values.steps) : Infinity,
  // By then everything that is made once has been made.
  warmStep: replay && values.warm ? Number(values.warm) : null,
  warmMinutes: values.warm ? Number(values.warm) : Math.min(10, minutes / 4),
  log: (action) => out.write(`${JSON.stringify(action)}\n`),
  told: (text) => console.log(text),
  // What is held and by what, to open in a browser's tools.
  snapshot: values.snapshots ? (text, n) => writeFileSync(join(values.snapshots, `${n + 1}.heapsnapshot`), text) : null,
});
out.end();
console.log(`\n${tableOf(result)}\nlog: ${file}`);
const wrong = faults(result);
wrong.forEach((fault) => console.log(`- ${fault}`));
if (wrong.length) process.exitCode = 1;
