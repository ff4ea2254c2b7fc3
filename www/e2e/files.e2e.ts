import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { menu, numbers, openDemo, openPhoto, pick, settled, unfound } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const bad = (name: string, text: string, mimeType = 'image/jpeg') => ({ name, mimeType, buffer: Buffer.from(text) });

it('keeps what is open when another file cannot be opened, and says what to do', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const before = await numbers(page);
  await openPhoto(page, bad('notes.jpg', 'this is not a picture'));
  const alert = page.getByRole('alert');
  await alert.waitFor();
  expect(await alert.innerText()).toMatch(/notes\.jpg could not be opened\. What was open is still here\.\n+\S.{20,}/);
  expect(await numbers(page)).toEqual(before);
  expect(await page.locator('.file-name').innerText()).toBe('demo photo: rendered, nobody’s teeth');

  // A photo that breaks off in the middle, and a scene that is none.
  const { photo } = await demoCase();
  await openPhoto(page, { ...photo, name: 'cut.jpg', buffer: photo.buffer.subarray(0, 2000) });
  await alert.filter({ hasText: 'cut.jpg could not be opened' }).waitFor();
  await pick(page, () => menu(page, 'Open a saved scene'), bad('scene.json', '{"regions":[{"id":"a"}]}', 'application/json'));
  await alert.filter({ hasText: 'scene.json is not a scene' }).waitFor();
  expect(await numbers(page)).toEqual(before);
  await page.getByRole('button', { name: 'Close this message' }).click();
  await close();
});

it('opens a dropped and a pasted photo', async () => {
  const { page, close } = await visit();
  const { photo } = await demoCase();
  const bytes = photo.buffer.toString('base64');
  const give = (kind: 'drop' | 'paste', name: string) =>
    page.evaluate(
      ([bytes, kind, name]) => {
        const data = new DataTransfer();
        // The same picture as two files.
        data.items.add(new File([Uint8Array.from(atob(bytes!), (c) => c.charCodeAt(0)), name!], name!, { type: 'image/jpeg' }));
        window.dispatchEvent(kind === 'drop' ? new DragEvent('drop', { dataTransfer: data }) : new ClipboardEvent('paste', { clipboardData: data }));
      },
      [bytes, kind, name] as const,
    );
  await give('drop', 'dropped.jpg');
  await page.locator('.file-name', { hasText: 'dropped.jpg' }).waitFor();
  await give('paste', 'pasted.jpg');
  await page.locator('.file-name', { hasText: 'pasted.jpg' }).waitFor();
  // Undo takes back what was found, then brings the photo before back.
  await unfound(page);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.locator('.file-name', { hasText: 'dropped.jpg' }).waitFor();
  await close();
});

it('saves a scene that gives the same numbers when it is opened again', async () => {
  const { page, close } = await visit({ acceptDownloads: true });
  await openDemo(page);
  const before = await numbers(page);
  const [download] = await Promise.all([page.waitForEvent('download'), menu(page, 'Save scene')]);
  expect(download.suggestedFilename()).toBe('demo photo.scene.json');
  const text = readFileSync((await download.path())!, 'utf8');
  const { photo, scene } = await demoCase();
  expect(JSON.parse(text).regions).toHaveLength(scene.regions.length);

  await openPhoto(page, { ...photo, buffer: Buffer.concat([photo.buffer, Buffer.from('another file')]) });
  await page.locator('.file-name', { hasText: 'demo.jpg' }).waitFor();
  expect(Object.keys(await numbers(page))).toEqual([]);
  await pick(page, () => menu(page, 'Open a saved scene'), bad('s.json', text, 'application/json'));
  await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
  await settled(page);
  expect(await numbers(page)).toEqual(before);
  await close();
});

it('asks for what an opened scene does not have', async () => {
  const { page, close } = await visit();
  const { photo, scene } = await demoCase();
  await openPhoto(page, photo);
  await page.locator('.guide-note').waitFor({ state: 'attached' });
  await settled(page);
  const { regions, card } = scene;
  for (const [without, asked] of [[{ regions }, 'Tap the grey card in the photo.'], [{ card, regions: [] }, 'Tap tab'], [{ card, regions: regions.filter((r) => r.kind === 'tab') }, 'Tap the natural tooth.']]) {
    await pick(page, () => menu(page, 'Open a saved scene'), bad('s.json', JSON.stringify(without), 'application/json'));
    await page.getByText(asked as string).first().waitFor();
  }
  await close();
});

it('gives the numbers as CSV, as a file and to the clipboard', async () => {
  const { page, close } = await visit({ acceptDownloads: true, permissions: ['clipboard-read', 'clipboard-write'] });
  await openDemo(page);
  const [download] = await Promise.all([page.waitForEvent('download'), menu(page, 'Save the numbers as CSV')]);
  const text = readFileSync((await download.path())!, 'utf8');
  const { scene } = await demoCase();
  expect(text.trim().split('\r\n')).toHaveLength(1 + 4 * scene.regions.length);
  await menu(page, 'Copy the numbers');
  await page.getByRole('status').filter({ hasText: 'Numbers copied.' }).waitFor();
  expect((await page.evaluate(() => navigator.clipboard.readText())).replaceAll('\r\n', '\n')).toBe(text.replaceAll('\r\n', '\n'));
  await close();
});

it('uses another shade guide, refuses a broken one, and goes back on undo', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const guide = { name: 'Bench guide', source: 'measured', tabs: [{ name: 'Q7', lab: [73, 1.5, 18] }] };
  await pick(page, () => menu(page, 'Use another shade guide'), bad('guide.json', JSON.stringify(guide), 'application/json'));
  await page.locator('.ladder-lane text', { hasText: 'Q7' }).first().waitFor();
  await pick(page, () => menu(page, 'Use another shade guide'), bad('broken.json', '{"name":"x","source":"measured","tabs":[]}', 'application/json'));
  await page.getByRole('alert').filter({ hasText: 'broken.json is not a shade guide' }).waitFor();
  expect(await page.locator('.ladder-lane text', { hasText: 'Q7' }).count()).toBeGreaterThan(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await settled(page);
  await page.locator('.ladder-lane text', { hasText: 'Q7' }).first().waitFor({ state: 'detached' });
  await close();
});

it('takes a cross-polarised photo of the same view beside the plain one, and lets go of it', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const heads = page.locator('.numbers thead th', { hasText: 'L* cross-pol.' });
  expect(await heads.count()).toBe(0);
  // The same picture stands in: it lies over itself, so its L* must be the plain one's.
  const { photo, scene } = await demoCase();
  await pick(page, () => menu(page, 'Add the cross-polarised photo'), photo as never);
  await heads.waitFor({ state: 'attached' });
  await settled(page);
  const row = page.locator(`.numbers tbody[data-region="${scene.regions[0]!.id}"] tr[data-zone=middle]`);
  const value = async (key: string) => Number(await row.locator(`[data-number=${key}]`).innerText());
  expect(Math.abs((await value('polarised')) - (await value('l')))).toBeLessThan(0.5);
  await page.getByText('About the photo').click();
  await page.getByRole('button', { name: 'Take it away' }).click();
  await heads.waitFor({ state: 'detached' });
  expect(errors).toEqual([]);
  await close();
});

it('leaves no field behind for each time the choice of a file was given up', async () => {
  const { page, close } = await visit();
  page.on('filechooser', () => {});
  for (let i = 0; i < 3; i++) {
    await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Open a photo' }).click()]);
  }
  expect(await page.locator('input[type=file]').count()).toBe(1);
  await close();
});
