// The page's own code (scripts, styles, HTML; not the WebAssembly) stays within 140 KB gzipped.
import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

const LIMIT_BYTES = 140 * 1024;
const dist = new URL('../dist/', import.meta.url);
const files = readdirSync(dist, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /\.(js|css|html|svg)$/.test(entry.name))
  .map((entry) => `${entry.parentPath}/${entry.name}`);
const sizes = files.map((file) => gzipSync(readFileSync(file), { level: 9 }).length);
const total = sizes.reduce((a, b) => a + b, 0);
console.log(`page code: ${(total / 1024).toFixed(1)} KB gzip of ${LIMIT_BYTES / 1024} KB`);
if (total > LIMIT_BYTES) {
  console.error('The page is larger than its budget.');
  process.exitCode = 1;
}
