import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { complaints, cramped } from './axe';
import { closeBrowser, openBrowser, visit } from './browser';
import { fixture, found, menu, openDemo, openPhoto } from './desk';
import { demoCase } from './demo_case';
import { back, crowded, handOver, middlePixel, question, screenOf, sentence, showPatient } from './patient_case';
import { demoPlan, press } from './plan_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

const focused = (page: Page) => page.evaluate(() => document.activeElement?.textContent);
/** Longer than it has to be held. */
const HELD_MS = 1300;

it('shows the two, one plain sentence, and nothing a patient could not read', async () => {
  const { page, requests, errors, close } = await visit();
  await openDemo(page);
  const before = requests.length;
  await handOver(page);
  const { scene } = await demoCase();
  const text = (await screenOf(page).innerText()) + (await page.locator('.patient [aria-label]').evaluateAll((all) => all.map((e) => e.getAttribute('aria-label')).join('\n')));
  expect(text).not.toMatch(/\d|ΔE|L\*|\b[A-D][1-4]\b|demo|restoration|third|chroma|value/i);
  for (const { name } of scene.regions) expect(text).not.toContain(name);
  // The demo's crown is lighter than its neighbour.
  expect(await sentence(page)).toMatch(/^Your crown is (a little|clearly|much) brighter than the tooth beside it, /);
  expect(await page.getByText('Your dentist decides what is done.').count()).toBe(1);
  expect(requests.slice(before)).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

it('shows brightness only as grey, and painting only with a plan: with demo stains as an example', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  await handOver(page);
  const choice = page.getByRole('group', { name: 'What the pictures show' }).getByRole('button');
  expect(await choice.allTextContents()).toEqual(['As it is', 'Brightness only']);
  const [r, , b, a] = await middlePixel(page, 0);
  expect([r! > b! + 10, a]).toEqual([true, 255]);
  // Arrow keys go round.
  await choice.first().focus();
  await page.keyboard.press('ArrowRight');
  expect([await choice.nth(1).getAttribute('aria-pressed'), await focused(page)]).toEqual(['true', 'Brightness only']);
  for (const at of [0, 1]) expect(new Set((await middlePixel(page, at)).slice(0, 3)).size).toBe(1);
  expect(await page.locator('.patient-words[role=status]').textContent()).toContain('Light and dark only');
  await page.keyboard.press('ArrowRight');
  expect(await choice.first().getAttribute('aria-pressed')).toBe('true');
  await back(page).click();
  await press(page, 'Yes');

  await page.locator('.modes').getByRole('button', { name: 'Plan', exact: true }).click();
  await press(page, 'Use demo stains');
  await page.locator('.plan-sheet').waitFor();
  await handOver(page);
  await press(page, 'After painting (example)');
  expect(await page.locator('.patient-words').textContent()).toContain('invented paints');
  expect(await sentence(page)).not.toContain('paint');
  expect(await middlePixel(page, 2)).not.toEqual(await middlePixel(page, 1));
  const slider = page.getByRole('slider', { name: 'From now to after painting' });
  expect(await slider.getAttribute('aria-valuetext')).toBe('after painting');
  const shown = () => page.locator('.patient-pair canvas').nth(2).evaluate((c) => Number(getComputedStyle(c).opacity));
  expect(await shown()).toBe(1);
  await slider.focus();
  await page.keyboard.press('Home');
  expect([await shown(), await slider.getAttribute('aria-valuetext')]).toEqual([0, 'as it is now']);
  await close();
});

it('holds the rest of the page out of reach, and gives the focus back', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  const undo = page.getByRole('button', { name: 'Undo' });
  const title = await undo.getAttribute('title');
  await showPatient(page);
  expect(await page.evaluate(() => document.activeElement?.className)).toBe('patient');
  const reached = new Set<string>();
  for (let i = 0; i < 12; i++) {
    await page.keyboard.press('Tab');
    // Between its last and its first the focus is in the browser's own bar.
    reached.add(await page.evaluate(() => (document.activeElement === document.body ? 'bar' : document.activeElement?.closest('.patient') ? 'patient' : 'behind')));
  }
  expect([...reached].sort()).toEqual(['bar', 'patient']);
  expect(await undo.evaluate((e) => document.elementFromPoint(e.getBoundingClientRect().x + 9, e.getBoundingClientRect().y + 9)?.closest('.patient') !== null)).toBe(true);
  for (const key of ['Control+z', 'h', 'v']) await page.keyboard.press(key);
  await press(page, 'veneer');
  expect(await sentence(page)).toMatch(/^Your veneer is/);
  await back(page).click();
  await press(page, 'Yes');
  await screenOf(page).waitFor({ state: 'detached' });
  expect([await focused(page), await undo.getAttribute('title')]).toEqual(['More', title]);
  // It is remembered.
  await handOver(page);
  expect(await sentence(page)).toMatch(/^Your veneer is/);
  await close();
});

it('lets nothing open over itself: what asks in the meantime does so afterwards', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), menu(page, 'Open a case file')]);
  await showPatient(page);
  await chooser.setFiles(fixture('case/locked.tabside'));
  const asks = page.getByRole('dialog').filter({ hasText: 'locked.tabside' });
  await page.waitForTimeout(1000);
  expect(await asks.count()).toBe(0);
  await back(page).click();
  await press(page, 'Yes');
  await screenOf(page).waitFor({ state: 'detached' });
  await asks.waitFor();
  expect(await page.evaluate(() => document.activeElement?.closest('dialog')?.textContent)).toContain('locked.tabside');
  expect(errors).toEqual([]);
  await close();
});

it('asks when the way back is pressed, and goes when it is held', async () => {
  const { page, close } = await visit();
  await openDemo(page);
  await handOver(page);
  const asks = () => question(page).count();
  const open = () => screenOf(page).count();

  /** The focus follows when what it goes to is there. */
  const focusIs = (css: string) => page.locator(`${css}:focus`).waitFor();
  await back(page).click();
  await focusIs('.patient-question button:last-child');
  expect([await asks(), await focused(page)]).toEqual([1, 'No']);
  await press(page, 'No');
  await focusIs('.patient-back');
  expect([await asks(), await open()]).toEqual([0, 1]);
  // The key that answered is let go on the button: that is no press of it.
  await back(page).click();
  await focusIs('.patient-question button:last-child');
  await page.keyboard.down('Enter');
  await focusIs('.patient-back');
  await page.waitForTimeout(100);
  await page.keyboard.up('Enter');
  expect([await asks(), await open()]).toEqual([0, 1]);
  // Keys press as a finger does; Escape does too, and takes the question back.
  for (const key of ['Enter', ' ']) {
    await back(page).focus();
    await page.keyboard.press(key);
    await focusIs('.patient-question button:last-child');
    await page.keyboard.press('Escape');
    await focusIs('.patient-back');
    expect([await asks(), await open()]).toEqual([0, 1]);
  }
  await page.keyboard.press('Escape');
  await question(page).waitFor();
  await page.keyboard.press('Escape');
  // A click without a finger, as a switch or a screen reader makes it.
  await back(page).evaluate((b) => (b as HTMLElement).click());
  await question(page).waitFor();
  await press(page, 'No');
  // The browser's own way back.
  for (let i = 0; i < 2; i++) {
    await page.goBack();
    await question(page).waitFor();
    expect(await open()).toBe(1);
    await press(page, 'No');
  }

  await back(page).hover();
  await page.mouse.down();
  await page.waitForTimeout(300);
  expect(await back(page).textContent()).toBe('Keep holding …');
  await page.mouse.move(10, 10);
  await page.waitForTimeout(HELD_MS);
  await page.mouse.up();
  expect([await asks(), await open()]).toEqual([0, 1]);
  await back(page).hover();
  await page.mouse.down();
  await page.waitForTimeout(HELD_MS);
  await page.mouse.up();
  await screenOf(page).waitFor({ state: 'detached' });
  expect([await asks(), await focused(page)]).toEqual([0, 'More']);
  await close();
});

it.each(['Enter', ' '])('goes when the key %j is held, and presses nothing behind it', async (key) => {
  const { page, close } = await visit();
  await openDemo(page);
  await handOver(page);
  await back(page).focus();
  for (let held = 0; held < HELD_MS; held += 50) {
    // Without being let go: it repeats itself.
    await page.keyboard.down(key);
    await page.waitForTimeout(50);
  }
  await page.keyboard.up(key);
  await screenOf(page).waitFor({ state: 'detached' });
  expect(await page.locator('#menu-list').isVisible()).toBe(false);
  // The next press is one.
  await page.keyboard.press(key);
  expect(await page.locator('#menu-list').isVisible()).toBe(true);
  // The way back led back, not away.
  expect(await page.locator('.numbers tbody').count()).toBeGreaterThan(0);
  await close();
});

it('counts in words where motion is reduced', async () => {
  const { page, close } = await visit({ reducedMotion: 'reduce' });
  await openDemo(page);
  await handOver(page);
  await back(page).hover();
  // Each stands there for a moment only.
  await page.evaluate(() => {
    const said = Object.assign(window, { said: new Set<string>() }).said;
    const look = (button: Element) => said.add(button.textContent).add(button.querySelector('i')?.checkVisibility() ? 'moves' : '');
    new MutationObserver(() => document.querySelectorAll('.patient-back').forEach(look)).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  await page.mouse.down();
  const said = () => page.evaluate(() => [...(window as unknown as { said: Set<string> }).said]);
  await expect.poll(said).toEqual(expect.arrayContaining(['Keep holding …', 'Nearly …']));
  expect(await said()).not.toContain('moves');
  await page.mouse.up();
  await close();
});

it('says why there is nothing to show yet', async () => {
  const { page, close } = await visit();
  const { photo } = await demoCase();
  await openPhoto(page, photo);
  await found(page);
  await page.locator('#reading[aria-busy=false]').waitFor({ state: 'attached' });
  await menu(page, 'Show the patient');
  expect(await page.getByRole('alert').textContent()).toContain('Say first which one is the restoration.');
  expect(await screenOf(page).count()).toBe(0);
  await close();
});

const SIZES = { wide: { width: 1440, height: 900 }, tablet: { width: 1180, height: 820 }, upright: { width: 820, height: 1180 }, phone: { width: 390, height: 844 } };

it.each(Object.entries(SIZES))('axe finds nothing, nothing is crowded or too small, with large text too (%s)', async (_, viewport) => {
  const { page, close } = await visit({ viewport, bypassCSP: true });
  await demoPlan(page);
  await showPatient(page);
  const look = async (name: string) => expect([name, await complaints(page), await cramped(page), await crowded(page)]).toEqual([name, [], { overflow: false, small: [] }, []]);
  await look('setup');
  await press(page, 'Hand it over');
  // To whole pixels: lines of text end between them.
  const place = async () => Object.values((await page.locator('.patient-pair').boundingBox())!).map(Math.round);
  const at = await place();
  for (const choice of ['Brightness only', 'After painting (example)', 'As it is']) {
    await press(page, choice);
    await look(choice);
    // The eye compares: nothing moves.
    expect(await place()).toEqual(at);
  }
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  await look('large');
  await back(page).click();
  expect([await complaints(page), await question(page).evaluate((q) => q.getBoundingClientRect().left >= 0)]).toEqual([[], true]);
  await close();
});

it.each([{ width: 1180, height: 820 }, { width: 390, height: 844 }])('held by a finger it goes back, and presses nothing that lies under the finger then ($width × $height)', async (viewport) => {
  const { page, errors, close } = await visit({ viewport, hasTouch: true });
  await openDemo(page);
  await handOver(page);
  await page.evaluate(() => {
    const seen = ((window as unknown as { seen: string[] }).seen = []) as string[];
    window.print = () => void seen.push('print');
    document.addEventListener('click', (e) => seen.push((e.target as Element).textContent ?? ''));
  });
  const box = (await back(page).boundingBox())!;
  const cdp = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchEnd') =>
    cdp.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchStart' ? [{ x: box.x + box.width / 2, y: box.y + box.height / 2 }] : [] });
  await touch('touchStart');
  await screenOf(page).waitFor({ state: 'detached' });
  await touch('touchEnd');
  await page.waitForTimeout(700);
  expect(await page.evaluate(() => (window as unknown as { seen: string[] }).seen)).toEqual([]);
  expect(await screenOf(page).count()).toBe(0);
  // The next tap is the user's own again.
  await page.locator('.modes').getByRole('button', { name: 'Plan', exact: true }).tap();
  await page.locator('#plan').waitFor();
  expect(errors).toEqual([]);
  await close();
});
