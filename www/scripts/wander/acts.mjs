// Doing what was drawn. What is not there any more is missed, which is no fault.
import { dropFiles } from './files.mjs';
import { at, closeAll, menu, press, WAIT_MS } from './ways.mjs';

async function inCases(page, act) {
  if (!(await closeAll(page)) || !(await menu(page, 'cases'))) return false;
  await page.locator('.dialog.cases').waitFor({ timeout: WAIT_MS });
  await page.waitForTimeout(150);
  return act(page.locator('.case-row:not(.deleted)'));
}

const onScreen = (page, [x, y]) => {
  const { width, height } = page.viewportSize();
  return [Math.round(x * (width - 1)), Math.round(y * (height - 1))];
};

async function pull(page, from, to, steps, escape = false) {
  await page.mouse.move(...from);
  await page.mouse.down();
  try {
    await page.mouse.move(...to, { steps });
    if (escape) await page.keyboard.press('Escape');
  } finally {
    await page.mouse.up();
  }
}

const ACTS = {
  click: (page, { path }) => press(page, path),
  double: (page, { path }) => press(page, path, 2),
  async type(page, { path, text, end }) {
    if (!(await press(page, path))) return false;
    await page.keyboard.press('Control+a');
    await (text ? page.keyboard.insertText(text) : page.keyboard.press('Delete'));
    if (end) await page.keyboard.press(end);
  },
  async choose(page, { path, n, of }) {
    const found = page.locator(path).first();
    if (of === 'range') return (await found.focus({ timeout: 500 }), page.keyboard.press(['Home', 'End', 'ArrowUp', 'PageDown'][n % 4]));
    const most = await found.locator('option').count();
    if (most) await found.selectOption({ index: n % most }, { timeout: 500 });
  },
  async drag(page, { path, by, steps, escape }) {
    const from = await at(page, path);
    if (!from) return false;
    await pull(page, from, [from[0] + by[0], from[1] + by[1]], steps, escape);
  },
  sweep: (page, { from, to, steps }) => pull(page, onScreen(page, from), onScreen(page, to), steps),
  async wheel(page, { at, by }) {
    await page.mouse.move(...onScreen(page, at));
    await page.mouse.wheel(0, by);
  },
  async key(page, { key, times }) {
    for (let i = 0; i < times; i++) await page.keyboard.press(key);
  },
  mode: (page, { n }) => press(page, `.modes button:nth-of-type(${n + 1})`),
  photo: (page, { files }) => dropFiles(page, files),
  demo: async (page) => (await closeAll(page)) && menu(page, 'demo'),
  async language(page, { n }) {
    if (!(await closeAll(page)) || !(await menu(page, 'settings'))) return false;
    await press(page, `.dialog.settings fieldset:nth-of-type(2) label:nth-of-type(${n + 1}) input`);
  },
  resize: (page, { size: [width, height] }) => page.setViewportSize({ width, height }),
  newCase: async (page) => (await closeAll(page)) && menu(page, 'newCase'),
  openCase: (page, { n }) => inCases(page, async (rows) => {
    const open = rows.locator('button.primary');
    const many = await open.count();
    if (many) await open.nth(n % many).click({ timeout: 1000 });
  }),
  removeCase: (page, { n, forGood }) => inCases(page, async (rows) => {
    const many = await rows.count();
    if (!many) return false;
    await rows.nth(n % many).locator('.tray-acts > button').last().click({ timeout: 1000 });
    await page.waitForTimeout(150);
    if (forGood) await page.locator('.case-row.deleted .chips > button').last().click({ timeout: 1000 });
  }),
  close: closeAll,
  async hurry(page, { targets }) {
    for (const { path } of targets) await press(page, path);
  },
};
Object.assign(ACTS, { undo: ACTS.key, redo: ACTS.key, several: ACTS.photo, broken: ACTS.photo, other: ACTS.photo });

/** Gives whether it could be done. */
export async function perform(page, action) {
  try {
    return (await ACTS[action.kind](page, action)) !== false;
  } catch (error) {
    // A target that went away under the hand.
    if (/Timeout|not attached|detached|No node found|not visible/.test(error.message) && !/closed|crashed/.test(error.message)) return false;
    throw error;
  }
}
