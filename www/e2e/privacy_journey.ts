/** All that a user does with the page, from the demo to a case file: for tests of what it asks for on the way. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { openCaseFile, saveCase } from './case_save';
import { found, fixture, menu, numbers, openDemo, openPhoto, settled } from './desk';
import { back, handOver } from './patient_case';
import { beginWork, showMode } from './passes_case';

const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();

const closeDialog = (page: Page) => page.getByRole('dialog').getByRole('button', { name: 'Close', exact: true }).click();

/** Another file than the demo's by its bytes. */
const ownPhoto = () => ({ name: 'own.jpg', mimeType: 'image/jpeg', buffer: Buffer.concat([readFileSync(fixture('demo/demo.jpg')), Buffer.from('own')]) });

async function print(page: Page): Promise<number> {
  await page.emulateMedia({ media: 'print' });
  const { length } = await page.pdf();
  await page.emulateMedia({ media: 'screen' });
  return length;
}

async function speak(page: Page, language: string): Promise<void> {
  await page.locator('.dialog.settings').getByRole('radio', { name: language }).check();
}

/** Each step by its name: what fails says where. Gives the numbers of the demo and of an own photo. */
export const JOURNEY: readonly (readonly [name: string, go: (page: Page) => Promise<unknown>])[] = [
  ['demo, read', async (page) => (await openDemo(page), numbers(page))],
  ['printed reading', print],
  ['plan and swatches', async (page) => {
    await beginWork(page);
    await page.locator('.predicted canvas').first().waitFor();
    return page.locator('.plan-sheet .coats-bar').allInnerTexts();
  }],
  ['printed steps', print],
  ['patient', async (page) => {
    await handOver(page);
    const said = await page.locator('.patient-sentence').innerText();
    await back(page).click();
    await press(page, 'Yes');
    return said;
  }],
  ['practice', async (page) => {
    await showMode(page, 'Practice');
    await page.getByLabel('Paint this one').selectOption({ label: 'Tab A1' });
    await page.getByLabel('To look like this one').first().selectOption({ label: 'Tab A3' });
    await page.getByRole('button', { name: /^Plan (this exercise|it again)$/ }).click();
    await page.locator('.result').waitFor();
  }],
  ['tray', async (page) => {
    await showMode(page, 'Tray');
    await page.locator('#photos').waitFor();
    await showMode(page, 'Reading');
  }],
  ['own photo, found and read', async (page) => {
    await openPhoto(page, ownPhoto());
    await page.locator('.file-name', { hasText: 'own.jpg' }).waitFor();
    await found(page);
    await page.locator('.numbers tbody').first().waitFor({ state: 'attached' });
    await settled(page);
    return numbers(page);
  }],
  ['saved numbers', async (page) => {
    const [download] = await Promise.all([page.waitForEvent('download'), menu(page, 'Save the numbers as CSV')]);
    return readFileSync((await download.path())!, 'utf8').split('\r\n').length;
  }],
  ['case saved and opened', async (page) => {
    await openCaseFile(page, await saveCase(page, { passphrase: 'four words of no meaning' }));
    await page.getByRole('dialog').getByLabel('Passphrase').first().fill('four words of no meaning');
    await page.getByRole('dialog').getByRole('button', { name: 'Open', exact: true }).click();
    await page.locator('.opened-file .outcome').filter({ hasText: 'The same numbers' }).waitFor();
    await settled(page);
    return numbers(page);
  }],
  ['languages and settings', async (page) => {
    await menu(page, 'Settings');
    await speak(page, 'Deutsch');
    await page.getByRole('heading', { name: 'Einstellungen' }).waitFor();
    await speak(page, 'Español');
    await page.getByRole('heading', { name: 'Ajustes' }).waitFor();
    await speak(page, 'English');
    await page.getByRole('radio', { name: 'Light', exact: true }).check();
    await page.getByRole('radio', { name: 'Dark', exact: true }).check();
    await closeDialog(page);
  }],
  ['keys, what is kept', async (page) => {
    await menu(page, 'Keys');
    await page.locator('.key-table').first().waitFor();
    await closeDialog(page);
    await menu(page, 'What is kept where');
    await page.getByRole('heading', { name: 'What is kept where, and how to erase it' }).waitFor();
    await closeDialog(page);
  }],
];

/** What the steps gave, by their names. */
export async function journey(page: Page, after: (step: string) => void = () => {}): Promise<Record<string, unknown>> {
  const gave: Record<string, unknown> = {};
  for (const [name, go] of JOURNEY) {
    try {
      gave[name] = (await go(page)) ?? null;
    } catch (error) {
      throw new Error(`${name}: ${(error as Error).message}`, { cause: error });
    }
    after(name);
  }
  return gave;
}
