/** The single-file edition, made anew from what is there now, in a folder of its own. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

export interface Single {
  readonly path: string;
  /** As a double click opens it. */
  readonly url: string;
  remove(): void;
}

export async function buildSingle(): Promise<Single> {
  const dir = mkdtempSync(join(tmpdir(), 'tabside-single-'));
  await build({ configFile: fileURLToPath(new URL('../vite.single.config.ts', import.meta.url)), root: fileURLToPath(new URL('..', import.meta.url)), logLevel: 'error', build: { outDir: dir } });
  const path = join(dir, 'tabside.html');
  return { path, url: pathToFileURL(path).href, remove: () => rmSync(dir, { recursive: true }) };
}
