/**
 * Numbers of colours for every pixel: the program's kernels (`colour.mjs`) against OpenCV's and
 * scikit-image's (`benches/outside/colour.py`), one thread each, on the same pixels. Both print lines of
 * JSON; the ratios are made of them. TABSIDE_BENCH_CORE is the core that `colour.mjs` wants.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { figure, needed, notMeasured } from './figure.mjs';

const MEGAPIXELS = '12';
const ROUNDS = '7';
const GROUP = 'Colours of 12 MP, one thread';
const MEASURES = {
  srgb8_to_lab: { measure: 'sRGB8 → L*a*b*', target: 0.8 },
  delta_e_00: { measure: 'ΔE00 of every pixel', target: 0.02 },
};
/**
 * Two programs that did the same say the same mean. OpenCV takes an approximation of the transfer curve: on random
 * codes its L* is 0.086 lower on average than scikit-image's, which agrees with ours.
 */
const SAME = 0.1;

const [core] = needed('TABSIDE_BENCH_CORE');
const file = (path) => fileURLToPath(new URL(path, import.meta.url));
const python = ['/usr/bin/python3', 'python3'].find((p) => spawnSync(p, ['-c', 'import cv2, skimage']).status === 0);
const [theirs, ours] = [file('../../benches/outside/colour.py'), file('colour.mjs')];

/** Why a program gave nothing; else its lines. */
function lines(program, script, ...words) {
  if (!existsSync(script)) return { why: `${script} is not there`, found: [] };
  const run = spawnSync(program, [script, ...words, MEGAPIXELS, ROUNDS], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'], maxBuffer: 1 << 26 });
  if (run.status !== 0) return { why: `${script} failed (${run.status ?? run.error ?? run.signal})`, found: [] };
  return { found: run.stdout.split('\n').filter((line) => line.startsWith('{')).map((line) => JSON.parse(line)) };
}

const NO_PYTHON = 'python3-opencv or python3-skimage is missing (Debian, Ubuntu: `sudo apt-get install -y --no-install-recommends python3-opencv python3-skimage`)';
const [program, libraries] = [lines(process.execPath, ours, core), python ? lines(python, theirs) : { why: NO_PYTHON, found: [] }];
for (const [key, { measure, target }] of Object.entries(MEASURES)) {
  const reference = libraries.found.find((line) => line.measure === key);
  const all = program.found.filter((line) => line.measure === key);
  if (!all.length) notMeasured({ group: GROUP, measure, target, why: program.why ?? `colour.mjs says nothing of ${key}` });
  for (const own of all) {
    const name = all.length > 1 && own.by ? `${measure} (${own.by})` : measure;
    if (!reference) {
      figure({ group: GROUP, measure: `${name}, without a reference`, unit: 'ms', values: own.ms ?? [own.median_ms] });
      notMeasured({ group: GROUP, measure: `${name} against a library`, target, why: libraries.why ?? `colour.py says nothing of ${key}` });
      continue;
    }
    const apart = own.checksum === undefined || reference.checksum === undefined ? 0 : Math.abs(own.checksum - reference.checksum);
    if (apart > SAME) throw new Error(`${name}: the means differ by ${apart}: the two did not do the same.`);
    const by = { name: `${reference.by} ${reference.version}, natively`, value: (reference.median_ms / reference.megapixels) * own.megapixels };
    figure({ group: GROUP, measure: name, unit: 'ms', values: own.ms ?? [own.median_ms], reference: by, target });
  }
}
for (const { measure, by, ms, median_ms } of program.found.filter((line) => !(line.measure in MEASURES))) {
  figure({ group: GROUP, measure: by ? `${measure} (${by})` : measure, unit: 'ms', values: ms ?? [median_ms] });
}
