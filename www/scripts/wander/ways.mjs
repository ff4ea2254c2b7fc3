// Ways about the page that go by its build, not by its words, which are in any language.
import { place } from './survey.mjs';

const MENU = { cases: [2, 3], newCase: [2, 4], demo: [1, 3], settings: [5, 4] };
export const WAIT_MS = 3000;

export async function at(page, path) {
  const found = await page.evaluate(place, path);
  return found && found[0] >= 0 && found[1] >= 0 ? found : null;
}

export async function press(page, path, times = 1) {
  const where = await at(page, path);
  if (!where) return false;
  await page.mouse.click(...where, { clickCount: times });
  return true;
}

/** From the menu, by its place there: its words are in any language. */
export async function menu(page, name) {
  const [group, item] = MENU[name];
  const list = page.locator('#menu-list');
  if (!(await list.isVisible())) await press(page, '.menu > button');
  return press(page, `#menu-list section:nth-of-type(${group}) li:nth-of-type(${item}) button:not(:disabled)`);
}

/** Gives whether nothing is open over the page any more. Escape is enough for a dialog; the patient's view asks. */
export async function closeAll(page) {
  const until = Date.now() + WAIT_MS;
  do {
    const open = await page.evaluate(() => [document.querySelector('.patient-question') ? 'question' : document.querySelector('.patient-back') ? 'patient' : document.querySelector('dialog[open]') ? 'dialog' : null][0]);
    if (!open) return true;
    if (open === 'question') await press(page, '.patient-question button');
    else if (open === 'patient') await press(page, '.patient-back');
    else await page.keyboard.press('Escape');
    await page.waitForTimeout(60);
  } while (Date.now() < until);
  return false;
}
