// Kills the browser at random moments of work and looks what is there again: `npm run kills [-- N]`, with
// the page served at TABSIDE_URL. What was done, and when, is written down outside of the page; after each
// kill the same profile is started again, and what the page shows is compared with it.
//
// A change is lost when it was done (its last key was pressed, its photo shown) and is not there again. How
// much was lost is the time from the first lost change, as it was begun, to the kill. Exit status 1: more
// than a second was lost, or a case was not there, or could not be read.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const MOST_MS = 1000;
const VIEW = { width: 1180, height: 820 };
const ARGS = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--remote-debugging-port=0', 'about:blank'];
const PHOTO = readFileSync(fileURLToPath(new URL('../../fixtures/scenes/other.jpg', import.meta.url)));

const pause = (ms) => new Promise((done) => setTimeout(done, ms));
const random = (most) => Math.floor(Math.random() * most);
const oneOf = (list) => list[random(list.length)];

/** The pids of a process and of all that it began, as they are now. */
function family(pid) {
  const parents = new Map(
    readdirSync('/proc').filter((name) => /^\d+$/.test(name)).flatMap((name) => {
      try {
        const stat = readFileSync(`/proc/${name}/stat`, 'utf8');
        return [[Number(name), Number(stat.slice(stat.lastIndexOf(')') + 2).split(' ')[1])]];
      } catch {
        return [];
      }
    }),
  );
  const all = [pid];
  for (const one of all) for (const [child, parent] of parents) if (parent === one) all.push(child);
  return all;
}

/** A browser with a profile, as a child process. */
async function start(profile) {
  rmSync(join(profile, 'DevToolsActivePort'), { force: true });
  const child = spawn(process.env.TABSIDE_CHROMIUM ?? '/usr/bin/chromium', [`--user-data-dir=${profile}`, ...ARGS], { stdio: 'ignore', detached: true });
  const port = join(profile, 'DevToolsActivePort');
  for (let i = 0; !existsSync(port) || !readFileSync(port, 'utf8').includes('\n'); i++) {
    if (i > 300) throw new Error('The browser did not start.');
    await pause(50);
  }
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${readFileSync(port, 'utf8').split('\n')[0]}`);
  const context = browser.contexts()[0];
  const page = context.pages()[0] ?? (await context.newPage());
  await page.setViewportSize(VIEW);
  page.setDefaultTimeout(20_000);
  return {
    page,
    /** All at once, with no word before; gives when. */
    kill() {
      const pids = family(child.pid);
      const at = performance.now();
      for (const pid of pids) {
        try {
          process.kill(pid, 'SIGKILL');
        } catch {
          // It ended with the one before.
        }
      }
      return at;
    },
    async gone() {
      await browser.close().catch(() => {});
      while (family(child.pid).some((pid) => existsSync(`/proc/${pid}`) && !/^State:\s+Z/m.test(readFileSync(`/proc/${pid}/status`, 'utf8')))) await pause(20);
    },
  };
}

/** What was done to each thing, by what it is: values in a row, each with when it was begun and when it was seen. */
class Ledger {
  #rows = new Map();

  begin(what, value) {
    this.#rows.set(what, [{ value, begun: -Infinity, seen: -Infinity }]);
  }

  forget = (what) => this.#rows.delete(what);
  has = (what) => this.#rows.has(what);
  keys = () => [...this.#rows.keys()];
  last = (what) => this.#rows.get(what).at(-1).value;

  /** Does it, and writes it down. */
  async done(what, value, act) {
    const entry = { value, begun: performance.now(), seen: Infinity };
    this.#rows.get(what).push(entry);
    await act(entry);
    entry.seen = performance.now();
  }

  /** How long before the kill the first lost change was begun; 0 for none. Throws when what is there was never. */
  lost(what, found, killed) {
    const rows = this.#rows.get(what);
    const at = rows.findLastIndex(({ value }) => value === found);
    if (at < 0) throw new Error(`${what} is ${JSON.stringify(found)}, and was ${rows.map(({ value }) => JSON.stringify(value)).join(', ')}`);
    const missing = rows.slice(at + 1).find(({ seen }) => seen <= killed);
    return missing ? killed - missing.begun : 0;
  }
}

const mode = (page, name) => page.locator('.modes').getByRole('button', { name, exact: true }).click();
const menu = async (page, name) => {
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.locator('#menu-list').getByRole('button', { name, exact: true }).click();
};
const closeDialog = (page) => page.locator('.dialog header button').click();
const openFolds = (page) => page.evaluate(() => document.querySelectorAll('.depth > h2 > button[aria-expanded=false]').forEach((b) => b.click()));
const settled = (page) => page.locator('#reading[aria-busy=false]').waitFor({ state: 'attached' });
const shownPhoto = (page) => page.locator('.file-name').innerText();

async function drop(page, name) {
  const bytes = Buffer.concat([PHOTO, Buffer.from(name)]).toString('base64');
  await page.evaluate(([bytes, name]) => {
    const data = new DataTransfer();
    data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name, { type: 'image/jpeg' }));
    window.dispatchEvent(new DragEvent('drop', { dataTransfer: data }));
  }, [bytes, name]);
}

/** Ways to read what is shown. Each leaves the page where it may. */
const SHOWN = {
  async photos(page) {
    await mode(page, 'Tray');
    return (await page.locator('.tray-row h2').allInnerTexts()).join(' + ');
  },
  async label(page) {
    await menu(page, 'Cases on this device');
    const text = await page.locator('.case-row.looked h3').innerText();
    await closeDialog(page);
    return text.startsWith('Untitled case') ? '' : text;
  },
  async ticks(page) {
    await mode(page, 'Plan');
    return (await page.locator('.plan-step input').evaluateAll((all) => all.map((box) => (box.checked ? '1' : '0')))).join('');
  },
  async note(page) {
    await mode(page, 'Reading');
    await openFolds(page);
    const text = page.getByLabel('Text of note 1');
    return (await text.count()) ? text.inputValue() : null;
  },
  async name(page) {
    await mode(page, 'Reading');
    await openFolds(page);
    const region = await firstRegion(page);
    const input = page.locator('#shape-editor .fields input').first();
    if (!(await input.isVisible())) await region.click();
    return input.inputValue();
  },
};

const firstRegion = async (page) => page.locator('.shape-list .chips button').filter({ hasNotText: 'Card' }).first();

/** What one may do, each in a second or less; `null` for what cannot be done just now. */
const DOINGS = {
  async photo(page, ledger, n) {
    const before = ledger.last('photos');
    if (before.split(' + ').length > 3) return DOINGS.note(page, ledger, n);
    const name = `photo-${n}.jpg`;
    await mode(page, 'Reading');
    await ledger.done('photos', [before, name].filter(Boolean).join(' + '), async (entry) => {
      await drop(page, name);
      await page.locator('.file-name', { hasText: name }).waitFor();
      // Until it is opened nothing has changed.
      entry.begun = performance.now();
      // What is done from here on is done to another photo.
      for (const what of ['note', 'name']) ledger.begin(`${what} of ${name}`, what === 'note' ? null : undefined);
    });
  },
  async note(page, ledger) {
    const what = `note of ${await shownPhoto(page)}`;
    let before = await SHOWN.note(page);
    if (!ledger.has(what)) ledger.begin(what, before);
    if (before === null) {
      await ledger.done(what, '', async () => {
        await page.locator('.view-buttons').getByRole('button', { name: 'Add a note' }).click();
        await page.locator('#note-middle').click();
        await page.getByLabel('Text of note 1').waitFor();
      });
      before = '';
    }
    await page.getByLabel('Text of note 1').focus();
    await page.keyboard.press('End');
    for (let i = 0; i < 6; i++) {
      const key = oneOf([...'abcdefgh']);
      await ledger.done(what, (before += key), () => page.keyboard.press(key));
      await pause(random(120));
    }
  },
  async name(page, ledger, n) {
    const what = `name of ${await shownPhoto(page)}`;
    await settled(page);
    const before = await SHOWN.name(page);
    if (!ledger.has(what) || ledger.last(what) === undefined) ledger.begin(what, before);
    await ledger.done(what, `r${n}`, () => page.locator('#shape-editor .fields input').first().fill(`r${n}`));
  },
  async tick(page, ledger) {
    const before = await SHOWN.ticks(page);
    if (!before) return DOINGS.note(page, ledger);
    const at = random(before.length);
    const after = [...before].map((t, i) => (i === at ? (t === '1' ? '0' : '1') : t)).join('');
    await ledger.done('ticks', after, () => page.locator('.plan-step input').nth(at).setChecked(after[at] === '1'));
  },
  async label(page, ledger, n) {
    await menu(page, 'Cases on this device');
    const row = page.locator('.case-row.looked');
    await row.getByRole('button', { name: /^Rename/ }).click();
    await row.getByLabel('Label').fill(`case ${n}`);
    await ledger.done('label', `case ${n}`, () => page.keyboard.press('Enter'));
    await row.locator('h3', { hasText: `case ${n}` }).waitFor();
    await closeDialog(page);
  },
  /** Drawn with the mouse, as one does. */
  async draw(page, ledger) {
    const what = `places of ${await shownPhoto(page)}`;
    await settled(page);
    await SHOWN.name(page);
    const before = await places(page);
    if (!ledger.has(what)) ledger.begin(what, before);
    const handle = page.locator('.handle.move').first();
    const box = await handle.boundingBox();
    if (!box) return;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 4; i++) {
      await page.mouse.move(x + 3 * i, y + 2 * i);
      // What lies where is told by the page itself, while nothing else is done.
      await ledger.done(what, await places(page), async () => {});
    }
    await page.mouse.up();
    await ledger.done(what, await places(page), async () => {});
  },
};

/** Where the selected outline lies by the page's own table of numbers: its first point. */
async function places(page) {
  return page.evaluate(() => {
    document.querySelector('#shape-editor details.points')?.setAttribute('open', '');
    return [...document.querySelectorAll('#shape-editor .point-table input')].slice(0, 2).map((i) => i.value).join(' ');
  });
}

async function compare(page, ledger, killed, problems) {
  const losses = [];
  const look = async (what, found) => {
    try {
      losses.push([what, ledger.lost(what, found, killed)]);
    } catch (error) {
      problems.push(error.message);
    }
  };
  // A picture that is said to be missing is as good as its photo.
  const said = (await page.getByRole('alert').allInnerTexts()).join().match(/picture of (.*) is not here/)?.[1]?.split(', ') ?? [];
  await look('photos', (await SHOWN.photos(page)).split(' + ').filter((name) => !said.includes(name)).join(' + '));
  if (ledger.has('ticks')) await look('ticks', await SHOWN.ticks(page));
  if (ledger.has('label')) await look('label', await SHOWN.label(page));
  await mode(page, 'Reading');
  await settled(page);
  // One that was not searched yet is searched now.
  await page.locator('.numbers tbody, .reason').first().waitFor({ state: 'attached' }).catch(() => problems.push('the photo that is looked at was not read'));
  const shown = await shownPhoto(page);
  for (const [key, way] of [['note', SHOWN.note], ['name', SHOWN.name]]) {
    const what = `${key} of ${shown}`;
    if (ledger.has(what) && ledger.last(what) !== undefined) await look(what, await way(page));
  }
  const moved = `places of ${shown}`;
  if (ledger.has(moved)) {
    await SHOWN.name(page);
    await look(moved, await places(page));
  }
  return losses;
}

/** A new case with the demo's photo, its stains and a work. */
async function newCase(page) {
  // What was there is there again by then, or is not.
  await page.locator('.file-name:not(:empty)').waitFor({ timeout: 2000 }).catch(() => {});
  if (await shownPhoto(page)) await menu(page, 'New case');
  await page.getByRole('button', { name: 'Look at the demo' }).click();
  await settled(page);
  await mode(page, 'Plan');
  await page.locator('.plan-sheet, [data-why]').first().waitFor();
  const stains = page.getByRole('button', { name: 'Use demo stains', exact: true });
  if (await stains.isVisible()) await stains.click();
  await page.getByRole('button', { name: 'Begin this work' }).click();
  await page.locator('.plan-step input').first().waitFor();
  const ledger = new Ledger();
  ledger.begin('photos', await SHOWN.photos(page));
  ledger.begin('ticks', await SHOWN.ticks(page));
  ledger.begin('label', '');
  // From here on it counts.
  await pause(MOST_MS);
  return ledger;
}

/** Kills so many times; gives what was lost each time, and what else was wrong. */
export async function runKills({ url, kills, log = () => {} }) {
  const profile = mkdtempSync(join(tmpdir(), 'tabside-kills-'));
  const results = [];
  let ledger = null;
  let running = null;
  try {
    for (let kill = 0; kill < kills; kill++) {
      running = await start(profile);
      const { page } = running;
      await page.goto(url);
      if (ledger) await page.locator('.file-name:not(:empty)').waitFor();
      if (!ledger || random(4) === 0 || ledger.last('photos').split(' + ').length > 3) ledger = await newCase(page);
      const doings = { photo: 2, note: 5, name: 3, tick: 3, label: 2, draw: 4 };
      const bag = Object.entries(doings).flatMap(([name, n]) => Array(n).fill(name));
      const until = 200 + random(6000);
      let killed = 0;
      const done = [];
      const killing = pause(until).then(() => (killed = running.kill()));
      try {
        for (let n = kill * 1000; !killed; n++) {
          const what = oneOf(bag);
          done.push(what);
          await DOINGS[what](page, ledger, n);
        }
      } catch (error) {
        if (!killed) throw error;
      }
      await killing;
      await running.gone();
      running = await start(profile);
      const problems = [];
      let losses = [];
      try {
        const again = running.page;
        await again.goto(url);
        await again.locator('.modes').waitFor();
        await again.locator('.file-name:not(:empty)').waitFor();
        losses = await compare(again, ledger, killed, problems);
      } catch (error) {
        problems.push(`what is there could not be looked at: ${error.message.replace(/\x1b\[\d+m/g, '').split('\n').slice(0, 8).join(' ')}`);
      }
      const [what, ms] = losses.reduce((worst, one) => (one[1] > worst[1] ? one : worst), ['', 0]);
      results.push({ kill: kill + 1, doing: done.at(-1), lostMs: Math.round(ms), what, compared: losses.length, problems });
      log(results.at(-1));
      if (problems.length) ledger = null;
      else await startOver(running.page, ledger);
      running.kill();
      await running.gone();
    }
  } finally {
    running?.kill();
    await running?.gone();
    rmSync(profile, { recursive: true, force: true });
  }
  return results;
}

/** What is there now is what the next work begins with. */
async function startOver(page, ledger) {
  const photos = await SHOWN.photos(page);
  const ticks = await SHOWN.ticks(page);
  const label = await SHOWN.label(page);
  for (const what of ledger.keys()) if (/ of /.test(what)) ledger.forget(what);
  ledger.begin('photos', photos);
  ledger.begin('ticks', ticks);
  ledger.begin('label', label);
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const url = process.env.TABSIDE_URL;
  if (!url) throw new Error('TABSIDE_URL must name the served page.');
  const kills = Number(process.argv[2] ?? 50);
  const results = await runKills({
    url, kills,
    log: ({ kill, doing, lostMs, what, compared, problems }) => console.log(`kill ${kill}: while ${doing}, ${compared} things compared, lost ${lostMs} ms${what ? ` (${what})` : ''}${problems.map((p) => `\n  ${p}`).join('')}`),
  });
  const worst = Math.max(0, ...results.map((r) => r.lostMs));
  const bad = results.filter((r) => r.problems.length > 0);
  console.log(`${results.length} kills; something was missing after ${results.filter((r) => r.lostMs > 0).length}, at most the last ${worst} ms; no case was lost or damaged but in ${bad.length}.`);
  if (worst > MOST_MS || bad.length > 0 || results.length < kills) process.exitCode = 1;
}
