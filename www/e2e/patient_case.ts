/** The tablet turned round, as a clinician and a patient use it. */
import type { Locator, Page } from 'playwright-core';
import { menu } from './desk';
import { press } from './plan_case';

export const screenOf = (page: Page): Locator => page.getByRole('dialog', { name: 'For the patient' });
export const sentence = async (page: Page): Promise<string> => (await page.locator('.patient-sentence').textContent()) ?? '';
export const back = (page: Page): Locator => page.locator('.patient-back');
export const question = (page: Page): Locator => page.getByRole('alertdialog', { name: 'Back to the measurements?' });

export async function showPatient(page: Page): Promise<void> {
  await menu(page, 'Show the patient');
  await page.locator('.patient-pair canvas').nth(1).waitFor();
}

export async function handOver(page: Page): Promise<void> {
  await showPatient(page);
  await press(page, 'Hand it over');
}

/** A pixel in the middle of a picture, as it was drawn: 0 the tooth, 1 the crown, 2 what lies over it. */
export const middlePixel = (page: Page, at: number): Promise<number[]> =>
  page.locator('.patient-pair canvas').nth(at).evaluate((c: Element) => {
    const { width, height } = c as HTMLCanvasElement;
    return [...(c as HTMLCanvasElement).getContext('2d')!.getImageData(width / 2, height / 5, 1, 1).data];
  });

/** What lies on what it should not, or sticks out of the screen. */
export const crowded = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const boxes = [...document.querySelectorAll('.patient-pair > *, .patient-looks button, .patient-slide, .patient-words p, .patient-back, .patient-setup > *')]
      .filter((e) => e.textContent || e.querySelector('canvas'))
      .map((e) => ({ name: e.className || (e.textContent ?? '').slice(0, 20), r: e.getBoundingClientRect() }));
    const screen = document.querySelector('.patient')!;
    const out = boxes.filter(({ r }) => r.left < -1 || r.right > screen.clientWidth + 1).map(({ name }) => `${name} sticks out`);
    const over = boxes.flatMap((a, i) => boxes.slice(i + 1).filter((b) => a.r.left < b.r.right - 1 && b.r.left < a.r.right - 1 && a.r.top < b.r.bottom - 1 && b.r.top < a.r.bottom - 1).map((b) => `${a.name} on ${b.name}`));
    return [...out, ...over];
  });
