// Memory at rest, where the walk began: an empty desk, nothing open over the page, nothing at work.
import { closeAll, menu, press } from './ways.mjs';
import { perform } from './acts.mjs';
import { heldOf } from './held.mjs';

/** The helper ends after ten seconds without work, the worker of large case files after twenty. */
const REST_MS = 22_000;
const START = [1180, 820];

const busy = (page) => page.evaluate(() => document.querySelector('.busy, .tray-opening, #reading[aria-busy=true]') !== null);

/** Until nothing is at work; not for ever. */
export async function idle(page, mostMs) {
  const until = Date.now() + mostMs;
  while ((await busy(page)) && Date.now() < until) await page.waitForTimeout(30);
}

/** What stands in the way of the start, for the one who reads it. */
export const inTheWay = (page) =>
  page.evaluate(() => {
    const text = (path) => [...document.querySelectorAll(path)].map((e) => e.textContent.trim().slice(0, 120));
    const modes = document.querySelector('.modes button')?.getBoundingClientRect();
    const lies = modes && document.elementFromPoint(modes.x + modes.width / 2, modes.y + modes.height / 2);
    return JSON.stringify({ lies: lies?.outerHTML.slice(0, 160), over: text('dialog[open] h2, .patient-question, .busy, .tray-opening'), mode: text('.modes [aria-current], .modes [aria-pressed=true]'), photo: text('.file-name'), said: text('[role=alert], [role=status]'), menu: document.querySelector('#menu-list')?.checkVisibility() ?? null, shut: document.querySelectorAll('#menu-list button:disabled').length });
  });

/** Gives what stood in the way of the start; `null` when it was reached. */
export async function toStart(page) {
  await page.setViewportSize({ width: START[0], height: START[1] });
  for (let tries = 0; tries < 10; tries++) {
    await page.mouse.move(2, 2);
    if (!(await closeAll(page))) return inTheWay(page);
    await idle(page, 20_000);
    if (await page.evaluate(() => document.querySelector('.start .choices') !== null)) return null;
    // A new case is begun where there is one; without a photo the first word at the top leads to the start.
    await menu(page, 'newCase');
    await page.waitForTimeout(400);
    await page.keyboard.press('Escape');
    await press(page, '.modes button:nth-of-type(1)');
    await page.waitForTimeout(200);
  }
  return inTheWay(page);
}

/** One language for both figures: the words of each are fetched once, and stay. */
const inEnglish = async (page) => {
  await perform(page, { kind: 'language', n: 0 });
  await page.waitForTimeout(150);
  await closeAll(page);
};

/** Bytes that the programs of its workers hold: the most that each ever needed, since such memory is not given back while it runs. */
export const programs = (page) =>
  page.evaluate(async () => {
    const all = await Promise.all([...spied.workers].map((worker) => Promise.race([worker.probe(), new Promise((done) => setTimeout(done, 5000, null))])));
    return all.reduce((sum, bytes) => sum + (bytes ?? 0), 0);
  });

/** A snapshot of all that the page holds. */
async function snapshot(cdp) {
  const pieces = [];
  const add = ({ chunk }) => pieces.push(chunk);
  cdp.on('HeapProfiler.addHeapSnapshotChunk', add);
  await cdp.send('HeapProfiler.takeHeapSnapshot', { reportProgress: false });
  cdp.off('HeapProfiler.addHeapSnapshotChunk', add);
  return pieces.join('');
}

/**
 * The engine remembers what was dragged last, as a piece of selected text, and with it the whole view that was
 * there. Something small is dragged in its place, for the count of nodes (of bytes `held.mjs` tells it apart); only
 * what can be dragged is remembered.
 */
async function dragNothing(page) {
  await page.evaluate(() => {
    const small = Object.assign(document.createElement('div'), { id: 'wander-dragged', draggable: true });
    Object.assign(small.style, { position: 'fixed', left: '0', bottom: '0', width: '40px', height: '40px', zIndex: '9999' });
    document.body.append(small);
  });
  await page.mouse.move(10, START[1] - 10);
  await page.mouse.down();
  await page.mouse.move(60, START[1] - 60, { steps: 5 });
  await page.mouse.up();
  await page.evaluate(() => document.querySelector('#wander-dragged')?.remove());
}

/**
 * What the page holds after collecting what nobody needs; `null` where the start is not reached. `keep` is given the
 * whole snapshot, as the browser's own tools open it.
 */
export async function atRest(page, cdp, problems, quick = false, keep = null) {
  await page.bringToFront();
  const hindered = await toStart(page);
  if (hindered) return problems.add('stuck', `the start could not be reached: ${hindered}`), null;
  await inEnglish(page);
  await dragNothing(page);
  await page.waitForTimeout(quick ? 11_000 : REST_MS);
  for (let i = 0; i < 3; i++) {
    await cdp.send('HeapProfiler.collectGarbage');
    await page.waitForTimeout(200);
  }
  const { nodes, jsEventListeners } = await cdp.send('Memory.getDOMCounters');
  const text = await snapshot(cdp);
  keep?.(text);
  return { ...heldOf(text), nodes, listeners: jsEventListeners };
}
