// How many bytes of the built scripts come from which package of npm, after shortening, by the maps of
// a build of their own. Prints `bytes package` lines; the page's own code is `(page)`.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** The package that a source file belongs to. */
export const packageOf = (source) => /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(source)?.[1] ?? '(page)';

/** The numbers of a segment of a map. */
function numbers(segment) {
  const found = [];
  let value = 0;
  let shift = 0;
  for (const sign of segment) {
    const digit = DIGITS.indexOf(sign);
    value |= (digit & 31) << shift;
    shift += 5;
    if (digit & 32) continue;
    found.push(value & 1 ? -(value >>> 1) : value >>> 1);
    value = shift = 0;
  }
  return found;
}

/** Adds the bytes of a script to their packages: from each mapped place to the next, or to the line's end. */
export function share(script, map, shares) {
  const add = (name, text) => shares.set(name, (shares.get(name) ?? 0) + Buffer.byteLength(text));
  let source = 0;
  script.split('\n').forEach((line, row) => {
    let column = 0;
    let name = '(page)';
    for (const segment of (map.mappings.split(';')[row] ?? '').split(',').filter(Boolean)) {
      const [by, bySource] = numbers(segment);
      add(name, line.slice(column, column + by));
      column += by;
      if (bySource === undefined) continue;
      source += bySource;
      name = packageOf(map.sources[source]);
    }
    add(name, line.slice(column));
  });
}

async function main() {
  const root = fileURLToPath(new URL('..', import.meta.url));
  const out = mkdtempSync(join(tmpdir(), 'tabside-shares-'));
  const shares = new Map();
  const both = { root, logLevel: 'error', publicDir: false };
  await build({ ...both, configFile: join(root, 'vite.config.ts'), build: { outDir: join(out, 'page'), sourcemap: true } });
  await build({
    ...both,
    configFile: false,
    define: { 'process.env.NODE_ENV': '"production"', FILES_TO_KEEP: '[]' },
    build: { outDir: join(out, 'worker'), sourcemap: true, target: 'es2022', lib: { entry: join(root, 'src/sw.ts'), formats: ['iife'], name: 'tabside', fileName: () => 'sw.js' } },
  });
  for (const entry of readdirSync(out, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    if (entry.name.endsWith('.js.map')) share(readFileSync(path.slice(0, -4), 'utf8'), JSON.parse(readFileSync(path, 'utf8')), shares);
  }
  rmSync(out, { recursive: true });
  for (const [name, bytes] of [...shares].sort()) console.log(`${bytes} ${name}`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main();
