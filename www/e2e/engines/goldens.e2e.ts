/** What the views look like, against pictures that were looked at and kept: in Chromium, at the sizes that matter. */
import { readdirSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CHROMIUM, CHROMIUM_ARGS } from './chromium';
import { SIZES } from './engines';
import { BLESS, complaint, GOLDENS } from './golden';
import { otherFont } from './golden_font';
import { still, stillPage } from './golden_page';
import { VIEWS } from './golden_views';

const [TABLET, PORTRAIT, PHONE, DESK] = SIZES;
/** A view that changes its shape with the size has goldens at all of them; the others where they are used, and on a phone. */
const ALL = [TABLET!, PORTRAIT!, PHONE!, DESK!];
const WHERE: Record<string, typeof ALL> = { start: ALL, reading: ALL, plan: ALL, 'reading-light': [TABLET!], patient: [TABLET!, PORTRAIT!, PHONE!], photos: [DESK!, PHONE!] };
const USUAL = [TABLET!, PHONE!];

const PICTURES = Object.keys(VIEWS).flatMap((view) => (WHERE[view] ?? USUAL).map((size) => ({ view, size, name: `${view}-${size.width}x${size.height}` })));

let browser: Browser;
let differs: string | null;
beforeAll(async () => {
  browser = await chromium.launch({ executablePath: CHROMIUM, args: CHROMIUM_ARGS });
  const page = await stillPage(browser, TABLET!);
  differs = await otherFont(page);
  await page.context().close();
  if (differs) console.warn(`\n${'!'.repeat(100)}\n${differs}\n${'!'.repeat(100)}\n`);
});
afterAll(() => browser?.close());

it.for(PICTURES)('$name', async ({ view, size, name }, context) => {
  if (differs) return context.skip(differs);
  const page = await stillPage(browser, size);
  await VIEWS[view]!(page);
  expect(complaint(name, await still(page))).toBeNull();
  await page.context().close();
});

it.skipIf(BLESS)('every golden belongs to a view', () => {
  const kept = readdirSync(GOLDENS).filter((name) => name.endsWith('.png'));
  expect(kept.filter((name) => !PICTURES.some((p) => `${p.name}.png` === name))).toEqual([]);
});
