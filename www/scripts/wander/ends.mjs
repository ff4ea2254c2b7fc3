// How a walk begins, and what is looked at after it.
import { perform } from './acts.mjs';
import { dropFiles } from './files.mjs';
import { idle } from './memory.mjs';
import { closeAll } from './ways.mjs';

/** Reading, tray, plan, swatches, practice. */
const SIDES = 5;

/** Every side of the page once, with the demo on it, so that what is made once is made. */
export async function warmUp(page) {
  await page.locator('.start .choices').waitFor();
  // As many decoded at a time as there ever are.
  for (const n of [6, 0, 1, 2, 6, 3]) {
    await dropFiles(page, [{ pool: 'photos', n }]);
    await page.locator('canvas.photo').waitFor();
    await page.waitForTimeout(500);
    await idle(page, 20_000);
  }
  await dropFiles(page, [0, 1, 2, 4, 6].map((n) => ({ pool: 'photos', n })));
  await page.waitForTimeout(500);
  await idle(page, 40_000);
  for (const kind of ['demo', 'language', 'language', 'language']) await perform(page, { kind, n: kind === 'demo' ? 0 : 1 }).then(() => idle(page, 10_000));
  await closeAll(page);
  for (let n = 0; n < SIDES; n++) {
    await perform(page, { kind: 'mode', n });
    await idle(page, 10_000);
    await page.waitForTimeout(150);
  }
}

/** What is not kept yet has half a minute for it: the page would ask before it is left. */
async function keptAll(page) {
  for (const until = Date.now() + 30_000; Date.now() < until; await page.waitForTimeout(200))
    if (await page.evaluate(() => window.dispatchEvent(new Event('beforeunload', { cancelable: true })))) return true;
  return false;
}

/** After a reload every kept case opens again; gives how many did. */
export async function openAll(page, problems) {
  if (!(await keptAll(page))) problems.add('case lost', 'after half a minute of rest the page still asks before it is left');
  await page.reload();
  await page.locator('.top-bar').waitFor();
  await page.waitForTimeout(1000);
  let opened = 0;
  for (let n = 0; n < 30; n++) {
    if (!(await closeAll(page))) break;
    const before = await page.evaluate(() => sessionStorage.getItem('tabside.case.here'));
    if (!(await perform(page, { kind: 'openCase', n: 0 }))) break;
    await idle(page, 10_000);
    await page.waitForTimeout(300);
    const left = await page.evaluate(() => [...document.querySelectorAll('dialog.cases[open] .cases-said')].map((p) => p.textContent).join());
    if (left) problems.add('case lost', `does not open: ${left}`);
    if ((await page.evaluate(() => sessionStorage.getItem('tabside.case.here'))) !== before) opened++;
    if (n >= 3) break;
  }
  return opened;
}
