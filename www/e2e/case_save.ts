/** A case as a file: saved and opened by the page's own menu. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { menu, pick, type Given } from './desk';

/** `photos`: what is said of the choice; none of the three is asked for where it is left out. */
export async function saveCase(page: Page, { label = '', photos = '', passphrase = '' } = {}): Promise<Given> {
  await menu(page, 'Save the case as a file');
  const dialog = page.getByRole('dialog');
  if (label) await dialog.getByLabel('What you call the case').fill(label);
  if (photos) await dialog.getByLabel(photos).check();
  if (passphrase) await dialog.getByLabel('Passphrase (not required)').fill(passphrase);
  const [download] = await Promise.all([page.waitForEvent('download'), dialog.getByRole('button', { name: 'Save the file' }).click()]);
  await dialog.waitFor({ state: 'detached' });
  return { name: download.suggestedFilename(), mimeType: 'application/octet-stream', buffer: readFileSync((await download.path())!) };
}

export const openCaseFile = (page: Page, file: Given | string): Promise<void> => pick(page, () => menu(page, 'Open a case file'), file);
