// A walk: from step to step, with a look at everything every few steps, and the figures at its end.
import { chromium } from 'playwright-core';
import { perform } from './acts.mjs';
import { chance } from './chance.mjs';
import { openAll, warmUp } from './ends.mjs';
import { chooseFile } from './files.mjs';
import { Cases } from './kept.mjs';
import { atRest, idle, inTheWay, programs } from './memory.mjs';
import { draw } from './plan.mjs';
import { survey } from './survey.mjs';
import { alive, Problems, spy } from './watch.mjs';
import { closeAll, press } from './ways.mjs';

const ARGS = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--js-flags=--expose-gc'];
const LOOK_EVERY = 10;
/** Looks at what the page holds at rest: after the warm part, at the end, and between. */
const RESTS = 5;
const CLOSE_EVERY = 60;
/** Most users wait until what they did is done. */
const PATIENCE_MS = 2500;

async function begin(url) {
  const browser = await chromium.launch({ executablePath: process.env.TABSIDE_CHROMIUM ?? '/usr/bin/chromium', args: ARGS });
  const context = await browser.newContext({ viewport: { width: 1180, height: 820 }, serviceWorkers: 'block', locale: 'en-US', acceptDownloads: true });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  await page.addInitScript(spy);
  return { browser, page, url };
}

/** Without a photo it is the start, and none of the modes is the pressed one. */
const leadsThere = (path) => document.querySelector(path)?.ariaPressed === 'true' || document.querySelector('.start') !== null;

/** With nothing open over the page every mode is a press away; the tour may lie over it, and is left by its own button. */
async function reachable(page, problems) {
  const first = '.modes button:nth-of-type(1)';
  if (!(await page.locator(first).count())) return;
  for (let tries = 0; tries < 4; tries++) {
    if ((await press(page, first)) && (await page.waitForFunction(leadsThere, first, { timeout: 2000 }).catch(() => null))) return;
    await page.keyboard.press('Escape');
    await press(page, '.tour .now-buttons button:last-child');
    await page.waitForTimeout(300);
  }
  problems.add('covered', `a press on the modes leads nowhere: ${await inTheWay(page)}`);
}

/**
 * Wanders until `minutes` are over, `steps` are done or the `replay` is at its end. `warmMinutes` of it come
 * before the first figure of memory; of a replay `warmStep` steps, else a quarter. `log` is given each action with its step, as it is done;
 * `snapshot`, if there is one, each snapshot of memory with its number.
 */
export async function walk({ url, seed, minutes = Infinity, steps = Infinity, warmMinutes = 1, warmStep = null, replay = null, log = () => {}, told = () => {}, quick = false, snapshot = null }) {
  const { browser, page } = await begin(url);
  const [problems, cases] = [new Problems(told), new Cases()];
  const counts = {};
  let [step, missed, slowest, chosen] = [0, 0, 0, null];
  const memory = { rests: [], programs: [] };
  try {
    problems.watch(page);
    page.on('filechooser', (chooser) => void chooseFile(chooser.element(), chosen));
    await page.goto(url);
    const cdp = await page.context().newCDPSession(page);
    await warmUp(page);
    const begun = Date.now();
    const spent = () => (Date.now() - begun) / 60_000;
    const rest = async () => memory.rests.push(await atRest(page, cdp, problems, quick, snapshot && ((text) => snapshot(text, memory.rests.length))));
    // Between the first and the last, that something once held and let go again is told from what grows.
    const due = () => {
      const done = memory.rests.length;
      if (!done) return replay ? step >= (warmStep ?? replay.length / 4) : spent() >= warmMinutes;
      return done < RESTS - 1 && spent() >= warmMinutes + (done * (minutes - warmMinutes)) / (RESTS - 1);
    };
    const look = async () => {
      slowest = Math.max(slowest, await alive(page, problems));
      await cases.check(page, problems);
    };
    for (; step < steps && spent() < minutes && (!replay || step < replay.length) && problems.all.length < 40; step++) {
      problems.step = step;
      if (due()) await rest();
      const seen = await page.evaluate(survey);
      if (seen.blank || seen.erased) problems.add('blank', 'nothing is on the page');
      const action = replay ? replay[step] : draw(seen, chance(seed, step), cases.count);
      log({ step, seed, ...action });
      counts[action.kind] = (counts[action.kind] ?? 0) + 1;
      chosen = action.chosen ?? null;
      if (!(await perform(page, action))) missed++;
      if (action.kind !== 'hurry') await idle(page, PATIENCE_MS);
      if (step % LOOK_EVERY === LOOK_EVERY - 1) await look();
      if (step % CLOSE_EVERY === CLOSE_EVERY - 1) {
        if (!(await closeAll(page))) problems.add('dialog', `does not close: ${(await page.evaluate(survey)).dialog}`);
        else await reachable(page, problems);
      }
      if (step % 100 === 99 && memory.rests.length) memory.programs.push(await programs(page));
      if (step % 500 === 499) told(`${step + 1} steps, ${spent().toFixed(1)} min, ${cases.count} cases, ${problems.all.length} problems, programs ${((await programs(page)) / 1e6).toFixed(0)} MB`);
    }
    await look();
    if (memory.rests.length) await rest();
    const there = cases.count;
    const opened = await openAll(page, problems);
    await cases.check(page, problems);
    if (cases.count < there) problems.add('case lost', `${there} cases before the last reload, ${cases.count} after it`);
    return { seed, steps: step, minutes: spent(), counts, missed, cases: { count: cases.count, most: cases.most, removed: cases.removed, opened }, slowest, memory, problems: problems.all };
  } catch (error) {
    problems.add('walk', error.stack ?? error.message);
    return { seed, steps: step, minutes: 0, counts, missed, cases: { count: cases.count, most: cases.most, removed: cases.removed, opened: 0 }, slowest, memory, problems: problems.all };
  } finally {
    await browser.close();
  }
}
