import { afterAll, beforeAll, expect, it } from 'vitest';
import { address, closeBrowser, openBrowser, visit } from './browser';
import { numbers, onScreen, openDemo, settled } from './desk';
import { demoCase } from './demo_case';

beforeAll(openBrowser);
afterAll(closeBrowser);

it('opens the demo with one click and shows readings, curves, tabs and advice', async () => {
  const { page, errors, close } = await visit();
  await openDemo(page);
  const read = await numbers(page);
  const { scene } = await demoCase();
  expect(Object.keys(read).sort()).toEqual(scene.regions.map((r) => r.id).sort());
  for (const zones of Object.values(read)) {
    expect(Object.keys(zones)).toEqual(['cervical', 'middle', 'incisal', 'whole']);
    for (const { l } of Object.values(zones)) expect(l).toBeGreaterThan(40);
  }
  expect(await page.locator('.axis-curve .curve').count()).toBe(6);
  expect(await page.locator('.ladder-lane .mark').count()).toBeGreaterThan(8);
  expect(await page.locator('.depth.how dd p').count()).toBeGreaterThan(2);
  expect(await page.locator('.depth.how li').count()).toBeGreaterThan(2);
  await page.locator('.picture canvas').nth(2).waitFor();
  // The straightened pictures are there and have something on them.
  const painted = await page.locator('.picture canvas').evaluateAll((all) =>
    all.map((c) => {
      const { width, height } = c as HTMLCanvasElement;
      return (c as HTMLCanvasElement).getContext('2d')!.getImageData(width / 2, height / 2, 1, 1).data[3];
    }),
  );
  expect(painted).toEqual([255, 255, 255]);
  expect(errors).toEqual([]);
  await close();
});

it('asks the network for its own files only, and for nothing after the demo is open', async () => {
  const { page, requests, errors, close } = await visit();
  await page.waitForLoadState('networkidle');
  const base = address();
  await openDemo(page);
  expect(requests.filter((url) => !url.startsWith(base))).toEqual([]);
  const fetched = requests.map((url) => url.slice(base.length));
  expect(fetched.filter((path) => !/^($|icon\.svg$|assets\/[\w-]+\.(js|css|wasm)$|demo\/(demo\.jpg|scene\.json)$)/.test(path))).toEqual([]);
  expect(fetched.filter((path) => path.startsWith('demo/')).sort()).toEqual(['demo/demo.jpg', 'demo/scene.json']);

  const before = requests.length;
  const { inside, scene, width } = await demoCase();
  await page.mouse.click(...(await onScreen(page, inside(scene.regions[0]!.id), width)));
  await page.locator('.selection-bar').getByRole('button', { name: 'Delete' }).click();
  await page.keyboard.press('Control+z');
  await page.getByText('About the photo').click();
  await settled(page);
  await page.waitForTimeout(500);
  expect(requests.slice(before)).toEqual([]);
  expect(errors).toEqual([]);
  await close();
});

it('is held to its own server by the policy in the page', async () => {
  const { page, close } = await visit();
  const outcome = await page.evaluate(async () => {
    const blocked = new Promise<string>((resolve) =>
      document.addEventListener('securitypolicyviolation', (e) => resolve(e.effectiveDirective), { once: true }),
    );
    await fetch('http://127.0.0.1:9/').catch(() => {});
    return Promise.race([blocked, new Promise((r) => setTimeout(() => r('not blocked'), 2000))]);
  });
  expect(outcome).toBe('connect-src');
  await close();
});
