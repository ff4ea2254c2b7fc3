import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Scene } from '../src/engine/types';
import { complaints, cramped } from './axe';
import { closeBrowser, openBrowser, visit } from './browser';
import { fixture, menu, onScreen, openDemo, pick, settled } from './desk';
import { demoCase } from './demo_case';
import { openScene, sceneOf, showMode, SIZES } from './passes_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const OTHER = { name: 'bench.jpg', mimeType: 'image/jpeg', buffer: readFileSync(fixture('scenes/other.jpg')) };
const sceneFile = (scene: Scene) => ({ name: 'bench.scene.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(scene)) });

/** Opens the other photo with these outlines: more than one file goes on the tray. */
async function lay(page: Page, scene: Scene): Promise<void> {
  const button = page.locator('.open-photo');
  // On a phone the button is in the menu.
  const press = async () => ((await button.isVisible()) ? button.click() : menu(page, 'Open photo'));
  await pick(page, press, [OTHER, sceneFile(scene)] as never);
}

/** Where the keyboard is, once the page has followed. */
const focusIsOn = (page: Page, id: string) => expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe(id);

/** The other photo's outlines; without a restoration and with other names. */
const otherScene = (): Scene => ({ ...sceneOf('scenes/other'), regions: sceneOf('scenes/other').regions.filter((r) => r.kind !== 'restoration') });

const cells = (page: Page) => page.locator('.compare-grid .difference[data-delta-e]');

interface Found {
  deltas: number[];
  doubts: number[];
  text: string;
}

async function compared(page: Page): Promise<Found> {
  await expect.poll(() => cells(page).count(), { timeout: 20_000 }).toBe(3);
  const read = (key: string) => cells(page).evaluateAll((all, name) => all.map((e) => Number(e.getAttribute(name))), key);
  return { deltas: await read('data-delta-e'), doubts: await read('data-doubt'), text: (await cells(page).allInnerTexts()).join(' ') };
}

const numberOf = async (page: Page, region: string, zone: string, key: string): Promise<number> =>
  Number((await page.locator(`.numbers tbody[data-region="${region}"] tr[data-zone=${zone}] [data-number=${key}]`).textContent())!.replace('−', '-'));

const chosen = (page: Page, side: 'restoration' | 'target') => page.locator(`#compare-${side} option:checked`).textContent();
const THIRDS = ['cervical', 'middle', 'incisal'];

it('compares a restoration with a tooth of another photo, both doubts added as squares', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const demo = await demoCase();
  const restoration = demo.scene.regions.find((r) => r.kind === 'restoration')!;
  const ours = await Promise.all(THIRDS.map((zone) => numberOf(page, restoration.id, zone, 'doubt')));
  const ourValue = await numberOf(page, restoration.id, 'middle', 'l');
  await lay(page, otherScene());
  const found = await compared(page);
  expect([await chosen(page, 'restoration'), await page.locator('.compare-grid .of-photo').allInnerTexts()]).toEqual(['Restoration 21', ['demo photo: rendered, nobody’s teeth', 'bench.jpg']]);
  const text = await page.locator('.compare').innerText();
  expect(text).toContain('the doubts of both add up (as squares)');
  expect(text).toContain('cards of different printed colours');
  expect(await page.locator('.compare-grid .picture canvas').count()).toBe(2);
  expect(await page.locator('.compare-grid .axis-curve .curve').count()).toBe(4);
  expect(await page.locator('.compare-grid .band').first().isVisible()).toBe(false);

  // The other photo says the same of its tooth.
  const [handle, id] = (await page.locator('#compare-target').inputValue()).split(' ');
  expect(Number(handle)).toBeGreaterThan(0);
  await page.locator('.tray-row', { hasText: 'bench.jpg' }).getByRole('button', { name: /^Show / }).click();
  await page.locator('.file-name', { hasText: 'bench.jpg' }).waitFor();
  await showMode(page, 'Reading');
  await settled(page);
  const theirs = await Promise.all(THIRDS.map((zone) => numberOf(page, id!, zone, 'doubt')));
  const theirValue = await numberOf(page, id!, 'middle', 'l');
  // Both are shown to a tenth.
  found.doubts.forEach((doubt, i) => expect(Math.abs(doubt - Math.hypot(ours[i]!, theirs[i]!))).toBeLessThan(0.08));
  expect(found.text).toContain(ourValue > theirValue ? 'lighter' : 'darker');

  // Whichever is looked at: the same comparison.
  await showMode(page, 'Tray');
  expect((await compared(page)).deltas).toEqual(found.deltas);
  await page.getByRole('button', { name: 'Exchange the two' }).click();
  await expect.poll(() => chosen(page, 'target')).toBe('Restoration 21');
  expect((await compared(page)).text).toContain(ourValue > theirValue ? 'darker' : 'lighter');
  expect(errors).toEqual([]);
  await close();
});

it('says inside one photo what its reading says, and plans from it', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const demo = await demoCase();
  const [restoration, tooth] = ['restoration', 'tooth'].map((kind) => demo.scene.regions.find((r) => r.kind === kind)!);
  const advised = await page.locator('.judging .difference').evaluateAll((all) => all.map((e) => Number(e.getAttribute('data-delta-e'))));
  await lay(page, otherScene());
  const across = await compared(page);
  const handle = (await page.locator('#compare-restoration').inputValue()).split(' ')[0]!;
  await page.locator('#compare-target').selectOption(`${handle} ${tooth!.id}`);
  await page.getByText('Both are in one photo').waitFor();
  const inside = await compared(page);
  inside.deltas.forEach((delta, i) => expect(delta).toBeCloseTo(advised[i]!, 6));
  expect(Math.max(...inside.doubts)).toBeLessThan(Math.min(...across.doubts));

  await page.getByRole('button', { name: 'Plan from this comparison' }).click();
  await page.locator('#plan').waitFor();
  const typed = (zone: string, what: string) => page.getByLabel(`${zone}, ${what}, L*`, { exact: true }).inputValue();
  for (const [zone, title] of [['cervical', 'Cervical third'], ['middle', 'Middle third'], ['incisal', 'Incisal third']] as const) {
    const now = await Promise.all([typed(title, 'restoration'), typed(title, 'target')]);
    const read = [await onReading(page, restoration!.id, zone), await onReading(page, tooth!.id, zone)];
    now.forEach((text, i) => expect(Math.abs(Number(text) - read[i]!)).toBeLessThan(0.06));
  }
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => page.getByLabel('Middle third, restoration, L*', { exact: true }).count()).toBe(0);
  expect(errors).toEqual([]);
  await close();
});

/** A number of the reading, from another view and back. */
async function onReading(page: Page, region: string, zone: string): Promise<number> {
  await showMode(page, 'Reading');
  const value = await numberOf(page, region, zone, 'l');
  await showMode(page, 'Plan');
  return value;
}

it('takes what is suspected for the restoration until it is answered, and plans from nothing before', async () => {
  const { page, errors, close } = await visit();
  const demo = await demoCase();
  await lay(page, otherScene());
  await page.locator('.tray-row').first().waitFor();
  await pick(page, () => page.getByRole('button', { name: 'Add photos' }).click(), { ...demo.photo, name: 'client.jpg' });
  await page.locator('.tray-progress', { hasText: /^2 of 2 / }).waitFor({ timeout: 30_000 });
  const said = page.locator('.compare-suspected');
  await said.getByText(/^Tooth [a-z] in client\.jpg is taken as the restoration until you say/).waitFor();
  await compared(page);
  expect(await page.getByRole('button', { name: 'Plan from this comparison' }).count()).toBe(0);
  // Names in one photo and none in the other: not trusted alike.
  await page.locator('.rungs-apart', { hasText: 'client.jpg stands on: Grey card; bench.jpg stands on: Card and tabs' }).waitFor();
  await said.getByRole('button', { name: 'Answer in client.jpg' }).click();
  await page.getByRole('button', { name: 'Yes', exact: true }).click();
  await settled(page);
  await showMode(page, 'Tray');
  await compared(page);
  await page.getByRole('button', { name: 'Plan from this comparison' }).waitFor();
  expect([await said.count(), await chosen(page, 'restoration')]).toEqual([0, 'Restoration']);
  expect(errors).toEqual([]);
  await close();
});

it('gives the reason in place of the numbers when a photo has to be taken again', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  await lay(page, { ...otherScene(), card: null });
  const reason = page.locator('.compare-reason');
  await reason.getByText('bench.jpg gives no numbers').waitFor();
  expect(await cells(page).count()).toBe(0);
  expect(await page.locator('.compare .axis-curve, .compare .picture').count()).toBe(0);
  expect(await page.getByRole('button', { name: 'Plan from this comparison' }).count()).toBe(0);
  await reason.getByRole('button', { name: 'Look at bench.jpg' }).click();
  await page.locator('.file-name', { hasText: 'bench.jpg' }).waitFor();
  await page.locator('#reading').waitFor();
  expect(errors).toEqual([]);
  await close();
});

it('pins notes by mouse, moves them by drag and by keys, and takes them back', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const demo = await demoCase();
  const tooth = demo.scene.regions.find((r) => r.kind === 'tooth')!;
  const add = page.locator('#add-note');
  await add.click();
  const outlines = await page.locator('.outline').count();
  await page.mouse.click(...(await onScreen(page, demo.inside(tooth.id), demo.width)));
  await focusIsOn(page, 'text-note-1');
  await page.keyboard.type('white spot');
  expect(await page.getByLabel('Text of note 1').inputValue()).toBe('white spot');
  // The tap meant the note alone.
  expect([await page.locator('.outline').count(), await page.locator('.selection-bar').count()]).toEqual([outlines, 0]);
  const where = page.locator('.note-list li small').first();
  expect(await where.innerText()).toBe('on Tooth 11, middle third');

  const pin = page.locator('.pin').first();
  const centre = async () => {
    const { x, y, width, height } = (await pin.boundingBox())!;
    return [x + width / 2, y + height / 2] as const;
  };
  const [x, y] = await centre();
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 12, y, { steps: 4 });
  await page.mouse.move(x, y + 190, { steps: 4 });
  await page.mouse.up();
  expect(Math.abs((await centre())[1] - y - 190)).toBeLessThan(1.5);
  expect(await where.innerText()).not.toContain('Tooth 11');
  await page.keyboard.press('Control+z');
  expect(await where.innerText()).toBe('on Tooth 11, middle third');

  // By keys alone: into the middle of the view, moved, written, deleted.
  await add.focus();
  await page.keyboard.press('Enter');
  await focusIsOn(page, 'note-middle');
  await page.keyboard.press('Enter');
  await focusIsOn(page, 'pin-note-2');
  const second = page.locator('.pin').nth(1);
  const before = (await second.boundingBox())!;
  for (let i = 0; i < 5; i++) await page.keyboard.press('Shift+ArrowRight');
  const k = (await page.locator('canvas.photo').boundingBox())!.width / demo.width;
  expect((await second.boundingBox())!.x - before.x).toBeCloseTo(50 * k, 0);
  await page.keyboard.press('Enter');
  await focusIsOn(page, 'text-note-2');
  await page.keyboard.type('gum');
  expect(await second.getAttribute('aria-label')).toContain('Note 2: gum.');

  // 44 pixels to touch, and away with the outlines.
  expect(await page.locator('.pin .hit').first().evaluate((e) => e.getBoundingClientRect().width)).toBeGreaterThanOrEqual(44);
  await page.locator('.stage').focus();
  await page.keyboard.down('h');
  expect(await second.isVisible()).toBe(false);
  await page.keyboard.up('h');
  expect(await second.isVisible()).toBe(true);

  await second.focus();
  await page.keyboard.press('Delete');
  expect(await page.locator('.pin').count()).toBe(1);
  await focusIsOn(page, 'pin-note-1');
  await page.keyboard.press('Control+z');
  expect(await page.getByLabel('Text of note 2').inputValue()).toBe('gum');
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.printed-notes li').allInnerTexts()).toEqual(['white spot (on Tooth 11, middle third)', expect.stringMatching(/^gum \(/)]);
  expect(await page.locator('.printed-photo .pin-number').allInnerTexts()).toEqual(['1', '2']);
  expect(errors).toEqual([]);
  await close();
});

it('keeps the notes with their photo', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const demo = await demoCase();
  await page.locator('.view-buttons').getByRole('button', { name: 'Add a note' }).click();
  await page.mouse.click(...(await onScreen(page, demo.cardMiddle, demo.width)));
  await focusIsOn(page, 'text-note-1');
  await page.keyboard.type('card');
  await lay(page, otherScene());
  const shown = (name: string) => page.locator('.tray-row', { hasText: name }).getByRole('button', { name: /^Show / }).click();
  await compared(page);
  await shown('bench.jpg');
  await expect.poll(() => page.locator('.pin').count()).toBe(0);
  await shown('demo photo');
  await expect.poll(() => page.locator('.pin').count()).toBe(1);
  await close();
});

it('says whether the photo tells its tabs apart as the guide does, the worst first', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const rows = page.locator('.tabs-check-table tbody tr');
  await page.getByRole('button', { name: /^Show all 10 pairs/ }).click();
  expect(await rows.count()).toBe(10);
  const apart = (await page.locator('.tabs-check-table td:nth-child(4)').allInnerTexts()).map(Number);
  expect(apart).toEqual([...apart].sort((a, b) => b - a));
  expect(await page.locator('.tabs-check-said').innerText()).toContain('tells all 10 pairs of tabs apart');

  // Two names exchanged: the photo contradicts the guide.
  const { scene } = await demoCase();
  const swapped = scene.regions.map((r) => (r.name === 'A1' ? { ...r, name: 'A3' } : r.name === 'A3' ? { ...r, name: 'A1' } : r));
  await openScene(page, { ...scene, regions: swapped });
  await settled(page);
  await expect.poll(() => rows.first().innerText()).toContain('A1 and A3');
  expect(await rows.first().innerText()).toContain('check the names');
  expect(await page.locator('.tabs-check-said').innerText()).toContain('Worst: A1 and A3.');
  expect(errors).toEqual([]);
  await close();
});

it.each(Object.entries(SIZES))('axe finds nothing to object to, and all fits (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  await openDemo(page);
  await page.locator('#add-note').click();
  expect(await complaints(page)).toEqual([]);
  await page.locator('#note-middle').click();
  expect([await complaints(page), await cramped(page)]).toEqual([[], { overflow: false, small: [] }]);
  await lay(page, otherScene());
  await compared(page);
  expect([await complaints(page), await cramped(page)]).toEqual([[], { overflow: false, small: [] }]);
  await close();
});
