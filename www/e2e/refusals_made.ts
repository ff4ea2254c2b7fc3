/** The bad inputs that `tests/refusals` makes, written by it into a folder, or taken from the one that TABSIDE_REFUSALS names. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Given } from './desk';

/** `says`: what has to be read on the page. */
export type Bad = { id: string } & (
  | { kind: 'drop'; file: string; says: string; refused: boolean }
  | { kind: 'unlock'; file: string; typed: string; says: string }
  | { kind: 'read'; files: string[]; says: string[] }
  | { kind: 'call'; call: string; arguments: unknown[]; open?: string[]; says: string; refused: boolean }
);
export type BadOf<K extends Bad['kind']> = Extract<Bad, { kind: K }>;

export interface Made {
  of<K extends Bad['kind']>(kind: K): BadOf<K>[];
  /** The bytes of a file of a case. */
  bytes(id: string, file: string): Buffer;
  /** The same as a file with a name of its own; what hangs on behind makes it another file than the last one. */
  given(id: string, file: string, behind?: string): Given;
}

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export function made(): Made {
  const into = process.env['TABSIDE_REFUSALS'] ?? mkdtempSync(join(tmpdir(), 'refusals-'));
  if (!existsSync(join(into, 'index.json'))) {
    execFileSync('cargo', ['test', '--quiet', '--workspace', '--test', 'refusals', '--', '--ignored', '--exact', 'write_the_bad_inputs'], { cwd: ROOT, env: { ...process.env, TABSIDE_REFUSALS_OUT: into }, stdio: ['ignore', 'ignore', 'inherit'] });
  }
  const { cases } = JSON.parse(readFileSync(join(into, 'index.json'), 'utf8')) as { cases: Bad[] };
  const bytes = (id: string, file: string) => readFileSync(join(into, id, file));
  return {
    of: <K extends Bad['kind']>(kind: K) => cases.filter((c): c is BadOf<K> => c.kind === kind),
    bytes,
    given: (id, file, behind = '') => ({ name: `${id}-${file}`, mimeType: file.endsWith('.json') ? 'application/json' : file.endsWith('.jpg') ? 'image/jpeg' : '', buffer: Buffer.concat([bytes(id, file), Buffer.from(behind)]) }),
  };
}

/** As it is compared: quotes around names, and how lines are broken are the page’s own; signs that turn text around are not shown. */
export const plain = (text: string): string => text.replace(/[“”\u202a-\u202e]/g, '').replace(/\s+/g, ' ').trim();
