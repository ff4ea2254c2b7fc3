import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeBrowser, openBrowser, visit } from './browser';
import { demoCase } from './demo_case';
import { found, openDemo, openPhoto } from './desk';
import { fromTypedToPhoto, mode, press } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

/** What sticks out sideways, and which words of the tabs lie on each other or outside their own. */
const crowded = (page: Page): Promise<{ out: string[]; words: string[] }> =>
  page.evaluate(() => {
    const shown = (e: Element) => (e as HTMLElement).checkVisibility();
    const name = (e: Element) => `${e.tagName} ${e.getAttribute('class')} ${(e.textContent ?? '').slice(0, 30)}`;
    const panel = document.querySelector('.panel, .start');
    // What scrolls sideways by itself, or is only read out, may be wider.
    const free = '.scroll-x *, .sheet-scroll *, .unseen, .status, .skip, [class=lanes] *, .column-buttons *';
    const right = panel ? panel.getBoundingClientRect().left + panel.clientWidth : innerWidth;
    const out = [...(panel?.querySelectorAll('*') ?? [])].filter((e) => shown(e) && !e.matches(free) && !e.closest('svg') && e.getBoundingClientRect().right > right + 1).map(name);
    if (document.documentElement.scrollWidth > innerWidth) out.push('page');
    const tabs = [...document.querySelectorAll('.modes button')].filter(shown).map((button) => {
      const range = document.createRange();
      range.selectNodeContents(button);
      return { text: button.textContent ?? '', own: button.getBoundingClientRect(), at: range.getBoundingClientRect() };
    });
    const words = tabs.filter(({ own, at }) => at.left < own.left - 1 || at.right > own.right + 1).map((t) => t.text);
    for (const [i, a] of tabs.entries()) {
      for (const b of tabs.slice(i + 1)) if (a.at.left < b.at.right && b.at.left < a.at.right && a.at.top < b.at.bottom && b.at.top < a.at.bottom) words.push(`${a.text} on ${b.text}`);
    }
    return { out: [...new Set(out)].slice(0, 5), words };
  });

const STATES: [string, (page: Page) => Promise<void>][] = [
  ['start', async () => {}],
  ['typed', async (page) => {
    await press(page, 'Plan by typed colours');
    await press(page, 'Type the colours');
  }],
  ['form', async (page) => {
    await mode(page, 'Swatches');
    await press(page, 'Add a swatch');
    await page.getByLabel('Coats painted and fired', { exact: true }).fill('13');
    await press(page, 'Keep the swatch');
    await press(page, 'Drop it');
  }],
  ['plan', fromTypedToPhoto],
  ['work', async (page) => {
    await page.locator('.plan-step input').first().check();
    await page.locator('.limits summary').click();
    await page.getByRole('button', { name: 'Firings at most: less' }).click();
    await page.locator('.changed-limits button').click();
  }],
  ['stains', async (page) => {
    await mode(page, 'Swatches');
    await page.locator('.stain summary').first().click();
  }],
];

it.each([390, 1180])('text of twice the size has room, %i px wide', async (width) => {
  const { page, close } = await visit({ viewport: { width, height: 844 } });
  const small = await page.locator('.privacy').evaluate((e) => parseFloat(getComputedStyle(e).fontSize));
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  expect(await page.locator('.privacy').evaluate((e) => parseFloat(getComputedStyle(e).fontSize))).toBeCloseTo(2 * small);
  for (const [name, state] of STATES) {
    await state(page);
    expect([name, await crowded(page)]).toEqual([name, { out: [], words: [] }]);
  }
  await close();
});

it.each([820, 1180])('breaks the bar into lines rather than crush the name of the photo, %i px wide', async (width) => {
  const { page, close } = await visit({ viewport: { width, height: 844 } });
  await openPhoto(page, (await demoCase()).photo as never);
  await found(page);
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  expect((await page.locator('.file-name').boundingBox())!.width).toBeGreaterThan(200);
  await close();
});

it.each([[1180, 820], [820, 1180], [390, 844]])('leaves the patient the sentence and the way back, %i × %i', async (width, height) => {
  const { page, close } = await visit({ viewport: { width, height } });
  await openDemo(page);
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  await press(page, 'Show the patient');
  const box = async (what: string) => (await page.locator(what).boundingBox())!;
  const inView = ({ y, height: high }: { y: number; height: number }) => y >= 0 && y + high <= height;
  // While it is set up, too.
  expect(inView(await box('.patient-back'))).toBe(true);
  await press(page, 'Hand it over');
  const [sentence, back, pictures] = [await box('.patient-sentence'), await box('.patient-back'), await box('.patient-pictures')];
  expect([inView(sentence), inView(back)]).toEqual([true, true]);
  // Neither lies on the other.
  expect(sentence.y + sentence.height <= back.y || back.y + back.height <= sentence.y).toBe(true);
  expect(pictures.height).toBeGreaterThan(90);
  await close();
});
