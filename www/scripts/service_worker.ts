/**
 * Adds to a built page the service worker that keeps it: its list names every file with a checksum, so
 * that a copy is made of exactly this build or not at all.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'vite';

export const WORKER = 'sw.js';
const ENTRY = fileURLToPath(new URL('../src/sw.ts', import.meta.url));

/** What `workbox-precaching` takes. */
export interface Kept {
  url: string;
  /** `null` where the name changes with the content: a copy that the browser has will do. */
  revision: string | null;
  integrity: string;
}

const sha = (name: 'sha256' | 'sha384', bytes: Buffer, as: 'hex' | 'base64'): string => createHash(name).update(bytes).digest(as);

export const entryOf = (url: string, bytes: Buffer): Kept => ({
  url,
  revision: url.startsWith('assets/') ? null : sha('sha256', bytes, 'hex').slice(0, 16),
  integrity: `sha384-${sha('sha384', bytes, 'base64')}`,
});

/** Every file of the page, the service worker itself aside. */
export function filesToKeep(page: string): Kept[] {
  return readdirSync(page, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(page, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((url) => url !== WORKER)
    .sort()
    .map((url) => entryOf(url, readFileSync(join(page, url))));
}

async function write(page: string): Promise<void> {
  await build({
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    define: { 'process.env.NODE_ENV': '"production"', FILES_TO_KEEP: JSON.stringify(filesToKeep(page)) },
    build: { outDir: page, emptyOutDir: false, target: 'es2022', lib: { entry: ENTRY, formats: ['iife'], name: 'tabside', fileName: () => WORKER } },
  });
}

export function serviceWorker(): Plugin {
  let page = '';
  let written = false;
  return {
    name: 'service-worker',
    apply: 'build',
    configResolved: ({ root, build }) => void (page = resolve(root, build.outDir)),
    writeBundle: () => void (written = true),
    // Public files lie beside the page by now.
    closeBundle: () => (written ? write(page) : undefined),
  };
}
