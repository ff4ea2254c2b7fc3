// The page's own code, gzipped (scripts, styles, HTML; not the WebAssembly): what the first screen and
// a reading wait for, and all of the page in one language.
import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

const LIMITS = {
  first: { bytes: 121 * 1024, what: 'first screen and reading' },
  all: { bytes: 200 * 1024, what: 'the whole page in one language' },
};
const dist = new URL(process.env.TABSIDE_DIST ?? "../dist/", import.meta.url);
const files = readdirSync(dist, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /\.(js|css|html|svg)$/.test(entry.name))
  .map((entry) => ({ name: entry.name, bytes: gzipSync(readFileSync(`${entry.parentPath}/${entry.name}`), { level: 9 }).length }));
const sum = (list) => list.reduce((total, { bytes }) => total + bytes, 0);
const languages = files.filter(({ name }) => /^(de|es)-/.test(name));
const page = files.filter((file) => !languages.includes(file));
// The worker is `main-…`; what index.html names it needs at once, every other script comes later.
const html = readFileSync(new URL('index.html', dist), 'utf8');
const first = page.filter(({ name }) => !name.endsWith('.js') || name.startsWith('main-') || html.includes(name));
const kb = (bytes) => `${(bytes / 1024).toFixed(1)} KB`;
for (const [key, total] of Object.entries({ first: sum(first), all: sum(page) })) {
  const { bytes, what } = LIMITS[key];
  console.log(`page code, ${what}: ${kb(total)} gzip of ${kb(bytes)}`);
  if (total > bytes) {
    console.error('The page is larger than its budget.');
    process.exitCode = 1;
  }
}
console.log(`each further language: ${languages.map(({ name, bytes }) => `${name.slice(0, 2)} ${kb(bytes)}`).join(', ')}`);
