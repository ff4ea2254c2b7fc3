import { readFileSync } from 'node:fs';
import { differenceCiede2000 } from 'culori';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { fixture, menu, numbers, openDemo, openPhoto, pick, settled, type Zone } from './desk';
import { truthOf, type Truth } from './truths';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** What is asked of the page. The doubt it states itself is about as large. */
const TOLERANCE_DELTA_E_00 = 2.0;

/** What the command line reads; its own tests keep these files true. */
const readingsOf = (path: string): Record<string, Record<string, [number, number, number]>> =>
  JSON.parse(readFileSync(fixture(path), 'utf8')) as Record<string, Record<string, [number, number, number]>>;

/** The page shows one decimal; half of the last one is rounding. */
function sameAsCommandLine(read: Record<string, Record<string, Zone>>, path: string): void {
  for (const [id, zones] of Object.entries(readingsOf(path)))
    for (const [zone, lab] of Object.entries(zones)) {
      const { l, a, b } = read[id]![zone]!;
      [l, a, b].forEach((shown, i) => expect(Math.abs(shown - lab[i]!), `${id} ${zone}`).toBeLessThan(0.075));
    }
}

// Not the engine's own formula: an error in it would hide itself.
const ciede2000 = differenceCiede2000();
const deltaE = ({ l, a, b }: Zone, [tl, ta, tb]: readonly [number, number, number]): number =>
  ciede2000({ mode: 'lab65', l, a, b }, { mode: 'lab65', l: tl, a: ta, b: tb });

function compare(read: Record<string, Record<string, Zone>>, truth: Truth): void {
  const ids = truth.scene.regions.map((r) => r.id);
  expect(Object.keys(read).sort()).toEqual([...ids].sort());
  const errors = ids.flatMap((id) =>
    Object.entries(truth.zones[id]!).map(([zone, { lab }]) => ({ what: `${id} ${zone}`, error: deltaE(read[id]![zone]!, lab) })),
  );
  expect(errors).toHaveLength(4 * ids.length);
  expect(errors.filter(({ error }) => !(error <= TOLERANCE_DELTA_E_00))).toEqual([]);
}

it('measures ΔE00 as published: a pair of the 34', () => {
  const a = { mode: 'lab65', l: 50, a: 2.6772, b: -79.7751 } as const;
  expect(ciede2000(a, { mode: 'lab65', l: 50, a: 0, b: -82.7485 })).toBeCloseTo(2.0425, 4);
});

it('reads every zone of the demo within ΔE00 2.0 of the truth', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const read = await numbers(page);
  compare(read, truthOf('demo/demo.truth.json'));
  sameAsCommandLine(read, 'demo/demo.readings.json');
  await close();
});

it('reads every zone of a photo it was never shown, opened with its scene, within ΔE00 2.0 of the truth', async () => {
  const { page, close } = await visit();
  await openPhoto(page, fixture('scenes/other.jpg'));
  await page.locator('.file-name', { hasText: 'other.jpg' }).waitFor();
  const truth = truthOf('scenes/other.truth.json');
  const scene = { name: 'other.scene.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(truth.scene)) };
  await pick(page, () => menu(page, 'Open a saved scene'), scene);
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await settled(page);
  const read = await numbers(page);
  compare(read, truth);
  sameAsCommandLine(read, 'scenes/other.readings.json');
  await close();
});
