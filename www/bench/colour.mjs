/**
 * What the colour kernels of `src/colour/block.rs` cost as WebAssembly, in Node: the same V8 as in
 * Chromium, one thread. Called as
 *
 *     node www/bench/colour.mjs FOLDER [MEGAPIXELS [ROUNDS]]
 *
 * (12 and 9 unless told otherwise). FOLDER holds `tabside.js` and `tabside_bg.wasm` of the core, built as
 * the page's is (profile `page`, wasm-bindgen's target `web`, then wasm-opt: xtask/src/page.rs) but with
 * `--no-default-features --features bench`. Prints one line of JSON for each measure, named as in
 * benches/outside/colour.py, whose pixels are the same:
 *
 *     {"measure": "srgb8_to_lab", "by": "tabside", "version": "v8 11.3", "megapixels": 12, "rounds": 9,
 *      "median_ms": 40.1, "median_cpu_ms": 37.5, "ms": [...], "checksum": 57.5}
 *
 * `srgb8_to_lab` takes bytes, whole rows at once, and writes three rows of floats; `delta_e_00` takes two
 * such pictures. `median_cpu_ms` is the processor's time, which says the same on a busy machine.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const WIDTH_PX = 4000;
const [folder, megapixels = '12', given = '9'] = process.argv.slice(2);
if (!folder) throw new Error('Name the folder of the core that was built with the feature `bench`.');
const rounds = Number(given);
const pixels = Math.max(1, Math.round((Number(megapixels) * 1e6) / WIDTH_PX)) * WIDTH_PX;

const core = await import(pathToFileURL(resolve(folder, 'tabside.js')).href);
core.initSync({ module: readFileSync(resolve(folder, 'tabside_bg.wasm')) });
const bench = new core.ColourBench(pixels);

const work = { srgb8_to_lab: () => bench.srgb8_to_lab(0), delta_e_00: () => bench.delta_e_00() };
const times = { srgb8_to_lab: [], delta_e_00: [] };
const cpu = { srgb8_to_lab: [], delta_e_00: [] };
const cpuMs = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e3;
};
bench.srgb8_to_lab(1);
// The first two rounds are the compiler's.
for (let round = -2; round < rounds; round++) {
  for (const [name, run] of Object.entries(work)) {
    const [from, cpuFrom] = [performance.now(), cpuMs()];
    run();
    const [took, cpuTook] = [performance.now() - from, cpuMs() - cpuFrom];
    if (round < 0) continue;
    times[name].push(took);
    cpu[name].push(cpuTook);
  }
}
const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const means = bench.means();
for (const [place, name] of Object.keys(work).entries()) {
  const line = {
    measure: name,
    by: 'tabside',
    version: `v8 ${process.versions.v8}`,
    megapixels: pixels / 1e6,
    rounds,
    median_ms: median(times[name]),
    median_cpu_ms: median(cpu[name]),
    ms: times[name],
    checksum: means[place],
  };
  console.log(JSON.stringify(line));
}
