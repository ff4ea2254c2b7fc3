/**
 * Invariant 8 on thirty photos of every kind of file: the same bytes give the same reading in three
 * engines and natively, to the last bit. `cargo test --test bit_for_bit` renders the photos with their
 * scenes into `target/bit_for_bit` and writes beside each what is read of it natively.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { address } from '../browser';
import { addPiece, readOne, startWorker, takeLines } from './bit_for_bit_page';
import { PATIENCE_MS, rest, type Driver } from './driver';
import { ENGINES } from './engines';

interface Listed {
  readonly name: string;
  readonly pair: boolean;
  readonly scene: unknown;
  readonly guide: unknown;
  readonly sha256: string;
}

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const SET = join(ROOT, 'target/bit_for_bit');
/** What one message to an engine may hold. */
const PIECE = 400_000;
const COUNT = 30;

const hash = (text: string): string => createHash('sha256').update(text).digest('hex');

/** By engine, then by photo. */
const hashes = new Map<string, Map<string, string>>();
let listed: Listed[] = [];

beforeAll(() => {
  if (!existsSync(join(SET, 'set.json'))) execFileSync('cargo', ['test', '-q', '--workspace', '--test', 'bit_for_bit'], { cwd: ROOT, stdio: 'ignore' });
  listed = JSON.parse(readFileSync(join(SET, 'set.json'), 'utf8')) as Listed[];
  expect(listed).toHaveLength(COUNT);
}, 600_000);

/** The script of the worker that reads photos, as the page's own scripts name it. */
async function workerScript(): Promise<string> {
  const page = await (await fetch(address())).text();
  for (const [, src] of page.matchAll(/(?:src|href)="([^"]+\.js)"/g)) {
    const from = new URL(src!, address());
    const [, name] = /new Worker\([^)]*?(main-[\w-]+\.js)/.exec(await (await fetch(from)).text()) ?? [];
    if (name) return new URL(name, from).href;
  }
  throw new Error('the page names no worker');
}

async function linesOf(driver: Driver, { name, pair, scene, guide }: Listed): Promise<string> {
  for (const file of pair ? [`${name}.photo`, `${name}.polarised`] : [`${name}.photo`]) {
    const base64 = readFileSync(join(SET, file)).toString('base64');
    for (let at = 0; at < base64.length; at += PIECE) await driver.evaluate(addPiece, file, base64.slice(at, at + PIECE));
  }
  await driver.evaluate(readOne, name, pair, scene, guide);
  for (const last = Date.now() + PATIENCE_MS; Date.now() < last; await rest(20)) {
    const text = await driver.evaluate(takeLines, name);
    if (text !== null) return text;
  }
  throw new Error(`${driver.engine}: ${name} was not read`);
}

/** The first lines that differ, so that a failure says where. */
function apart(native: string, here: string): string[] {
  const [a, b] = [native.split('\n'), here.split('\n')];
  return a.flatMap((line, i) => (line === b[i] ? [] : [`native ${line}`, `here   ${b[i]}`])).slice(0, 6);
}

describe.each(ENGINES)('%s', (engine, open) => {
  let driver: Driver;
  beforeAll(async () => {
    driver = await open();
    await driver.goto(address());
    await driver.evaluate(startWorker, await workerScript());
  });
  afterAll(() => driver?.close());

  it('reads thirty photos as they are read natively, bit for bit', async () => {
    const begun = Date.now();
    const mine = new Map<string, string>();
    hashes.set(engine, mine);
    const wrong: unknown[] = [];
    for (const one of listed) {
      const text = await linesOf(driver, one);
      mine.set(one.name, hash(text));
      if (hash(text) !== one.sha256) wrong.push([one.name, apart(readFileSync(join(SET, `${one.name}.lines`), 'utf8'), text)]);
    }
    console.log(`${driver.engine} ${driver.version}: ${mine.size} photos in ${((Date.now() - begun) / 1000).toFixed(1)} s, ${mine.size - wrong.length} as natively`);
    expect(wrong).toEqual([]);
  });
});

it('every engine gives the same', () => {
  const rows = listed.map(({ name, sha256 }) => {
    const all = new Set([sha256, ...[...hashes.values()].map((mine) => mine.get(name) ?? 'none')]);
    return { name, sha256, different: all.size };
  });
  console.log(rows.map(({ name, sha256, different }) => `${name.padEnd(34)}${sha256.slice(0, 16)}  ${different === 1 ? 'one hash' : `${different} hashes`}`).join('\n'));
  console.log(`${rows.filter((r) => r.different === 1).length} of ${rows.length} photos: one hash in ${[...hashes.keys(), 'native'].join(', ')}; ${new Set(rows.map((r) => r.sha256)).size} different readings`);
  expect(rows.filter((r) => r.different !== 1)).toEqual([]);
  expect(new Set(rows.map((r) => r.sha256)).size).toBe(COUNT);
});
