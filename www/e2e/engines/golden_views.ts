/** The views that have goldens, and how to get to each from a fresh page. */
import type { Page } from 'playwright-core';
import { modes } from '../../src/words/modes';
import { openDemo } from '../desk';
import { handOver } from '../patient_case';
import { mode, press } from '../plan_case';
import { narrowPage, pictures } from './golden_page';

const reading = async (page: Page): Promise<void> => {
  await openDemo(page);
  if (await narrowPage(page)) await mode(page, 'Reading');
  await pictures(page, '.picture canvas', 3);
  // As it is found: nothing unfolded, the answer in sight.
  await page.evaluate(() => {
    document.querySelectorAll<HTMLElement>('.depth > h2 > button[aria-expanded=true]').forEach((button) => button.click());
  });
  // What was pressed comes into sight with the next frame.
  await page.waitForTimeout(100);
  await page.evaluate(() => (document.querySelector('.panel')!.scrollTop = 0));
};

export const VIEWS: Record<string, (page: Page) => Promise<void>> = {
  start: async () => {},
  reading,
  'reading-light': async (page) => {
    await reading(page);
    await page.evaluate(() => (document.documentElement.dataset['surround'] = 'light'));
  },
  plan: async (page) => {
    await openDemo(page);
    await mode(page, 'Plan');
    await press(page, 'Use demo stains');
    await page.locator('.plan-sheet .divider').waitFor();
    await pictures(page, '.predicted canvas', 1);
  },
  patient: async (page) => {
    await openDemo(page);
    await handOver(page);
    await pictures(page, '.patient-pair canvas', 2);
  },
  photos: async (page) => {
    await openDemo(page);
    await mode(page, modes.names.photos);
    await page.locator('#photos li').first().waitFor();
  },
  swatches: async (page) => {
    await press(page, 'My swatches');
    await page.locator('#swatches').waitFor();
  },
  practice: async (page) => {
    await press(page, 'Practice');
    await page.locator('#practice').waitFor();
  },
};
