/** What only the page can say, each made to happen: files that its own look refuses, and what its browser denies it. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { drop, menu, numbers, openDemo } from './desk';
import { PAGE_FILES } from './refusals_files';
import { plain } from './refusals_made';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('refuses files of the page’s own kinds part by part, and keeps what is open', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const before = await numbers(page);
  const alert = page.getByRole('alert');
  const wrong: unknown[] = [];
  for (const [entry, name, content, says] of PAGE_FILES) {
    await drop(page, { name: `${entry}-${name}`, mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(content)) });
    await alert.filter({ hasText: `${entry}-${name}` }).waitFor();
    const said = plain(await alert.innerText());
    if (!says.every((t) => said.includes(plain(t)))) wrong.push([entry, says, said]);
    await page.getByRole('button', { name: 'Close this message' }).click();
  }
  expect(wrong).toEqual([]);
  expect(await numbers(page)).toEqual(before);
  expect(errors).toEqual([]);
  await close();
});

it('refuses a file of more than 400 MB before it is read (page-too-large)', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const before = await numbers(page);
  await page.evaluate(() => {
    const part = new Uint8Array(4 << 20);
    const data = new DataTransfer();
    data.items.add(new File(Array.from({ length: 101 }, () => part), 'vast.jpg', { type: 'image/jpeg' }));
    window.dispatchEvent(new DragEvent('drop', { dataTransfer: data }));
  });
  await page.getByRole('alert').filter({ hasText: 'The file is larger than 400 MB. Open a smaller copy, or crop it to the teeth, tabs and card.' }).waitFor();
  expect(await numbers(page)).toEqual(before);
  await close();
});

it('says when the demo, or its stains, are not on the server', async () => {
  const { page, close } = await visit();
  await page.route('**/demo/**', (route) => route.fulfill({ status: 404, body: '' }));
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  const alert = page.getByRole('alert');
  await alert.filter({ hasText: 'The demo case could not be loaded.' }).waitFor();
  expect(await alert.innerText()).toContain('A file of the page is missing on its server.');
  expect(await alert.innerText()).toContain('Your file is unchanged. Load the page again if this keeps happening.');
  await page.unroute('**/demo/**');
  await openDemo(page);
  await page.route('**/demo/**', (route) => route.fulfill({ status: 404, body: '' }));
  await page.getByRole('button', { name: 'Swatches', exact: true }).click();
  await page.getByRole('button', { name: 'Use demo stains' }).first().click();
  await alert.filter({ hasText: 'The demo stains could not be loaded.' }).waitFor();
  await close();
});

it('says when the numbers cannot be copied, and that they can be saved', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  await page.evaluate(() => Object.defineProperty(navigator, 'clipboard', { value: { writeText: () => Promise.reject(new Error('denied')) } }));
  await menu(page, 'Copy the numbers');
  const alert = page.getByRole('alert').filter({ hasText: 'The numbers could not be copied.' });
  await alert.waitFor();
  expect(await alert.innerText()).toContain('Save them as a file instead.');
  await close();
});

it('sets aside kept stains that it cannot read, and says when none can be kept', async () => {
  const { page, close } = await visit();
  await page.evaluate(() => localStorage.setItem('tabside.stains.1', '{"form":1,"own":5}'));
  await page.reload();
  await page.getByRole('alert').filter({ hasText: 'What was kept on this device could not be read and is set aside.' }).waitFor();
  expect(await page.evaluate(() => localStorage.getItem('tabside.stains.1.aside'))).toBe('{"form":1,"own":5}');
  await page.addInitScript(() => {
    Storage.prototype.getItem = () => {
      throw new DOMException('denied', 'SecurityError');
    };
  });
  await page.reload();
  const alert = page.getByRole('alert').filter({ hasText: 'Stains and work could not be kept on this device.' });
  await alert.waitFor();
  expect(await alert.innerText()).toContain('Save your swatches as a file before you close the page.');
  await close();
});
