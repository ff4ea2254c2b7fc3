/**
 * Letters come from the machine: with another font, or letters set to whole pixels, every line of the
 * page lies elsewhere, and a golden says nothing of the page. So what the goldens were written with is
 * kept beside them. On a machine that writes otherwise they are left out, loudly: failing there would
 * only teach people to bless what nobody looked at.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { BLESS, GOLDENS } from './golden';

const FILE = `${GOLDENS}font.json`;
const SAMPLE = 'Cervical third ± 2.7 ΔE00, value L* 73.6';

interface Font {
  /** What the browser really writes with, for the page's own choice of font. */
  name: string;
  /** Of the sample at 15 px, regular and as headings are: with its fractions, which whole-pixel letters do not have. */
  width_px: number;
  heading_width_px: number;
  line_px: number;
}

async function fontOf(page: Page): Promise<Font> {
  const sizes = await page.evaluate((sample) => {
    const measure = (weight: string) => {
      const line = document.createElement('span');
      line.textContent = sample;
      Object.assign(line.style, { position: 'absolute', whiteSpace: 'nowrap', fontSize: '15px', lineHeight: 'normal', fontWeight: weight });
      document.body.append(line);
      const { width, height } = line.getBoundingClientRect();
      line.remove();
      return [Math.round(width * 100) / 100, Math.round(height * 100) / 100] as const;
    };
    const [width_px, line_px] = measure('400');
    return { width_px, heading_width_px: measure('650')[0], line_px };
  }, SAMPLE);
  const session = await page.context().newCDPSession(page);
  await session.send('DOM.enable');
  await session.send('CSS.enable');
  const { root } = await session.send('DOM.getDocument');
  const { nodeId } = await session.send('DOM.querySelector', { nodeId: root.nodeId, selector: 'h1' });
  const { fonts } = await session.send('CSS.getPlatformFontsForNode', { nodeId });
  await session.detach();
  return { name: fonts[0]?.familyName ?? 'unknown', ...sizes };
}

/** Why the goldens cannot be compared on this machine; nothing when they can. */
export async function otherFont(page: Page): Promise<string | null> {
  const here = await fontOf(page);
  if (BLESS) return writeFileSync(FILE, `${JSON.stringify(here, null, 1)}\n`), null;
  const there = JSON.parse(readFileSync(FILE, 'utf8')) as Font;
  if (JSON.stringify(here) === JSON.stringify(there)) return null;
  return `GOLDENS NOT COMPARED: they were made with ${there.name} (${there.width_px} px), this machine writes with ${here.name} (${here.width_px} px).`;
}
