// Draws the icons of the installed page from its own icon.svg, in Chromium: `node scripts/icons.mjs`.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { chromium } from 'playwright-core';

const svg = readFileSync(new URL('../public/icon.svg', import.meta.url), 'utf8');
const to = new URL('../public/icons/', import.meta.url);
/** The icon's own ground, to the edges. */
const GROUND = svg.match(/fill="(#[0-9a-f]{6})"/)[1];

/** `inner`: how much of the picture the icon takes. A system that cuts a shape of its own keeps the middle 80 %. */
const ICONS = [
  { name: 'icon-192.png', size: 192, inner: 1 },
  { name: 'icon-512.png', size: 512, inner: 1 },
  { name: 'icon-maskable-512.png', size: 512, inner: 0.72, ground: GROUND },
  { name: 'apple-touch-icon.png', size: 180, inner: 0.82, ground: GROUND },
];

mkdirSync(to, { recursive: true });
const browser = await chromium.launch({ executablePath: process.env['TABSIDE_CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'] });
const page = await browser.newPage();
for (const { name, size, inner, ground } of ICONS) {
  await page.setViewportSize({ width: size, height: size });
  const picture = `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}`;
  await page.setContent(`<body style="margin:0;height:100vh;display:grid;place-items:center;background:${ground ?? 'transparent'}"><img src="${picture}" width="${size * inner}" height="${size * inner}">`);
  await page.locator('img').evaluate((img) => img.decode());
  writeFileSync(new URL(name, to), await page.screenshot({ omitBackground: true }));
}
await browser.close();
