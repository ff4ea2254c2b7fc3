/**
 * Golden screenshots: half the size, each pixel the mean of four, each channel in steps of 4, so that
 * all of them together stay near one megabyte in the repository.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import pixelmatch from 'pixelmatch';
import { PNG } from 'pngjs';

export const GOLDENS = fileURLToPath(new URL('../goldens/', import.meta.url));
const SEEN = fileURLToPath(new URL('../../../target/goldens/', import.meta.url));
export const BLESS = process.env['TABSIDE_BLESS'] === '1';

/** Of a pixel's channel; it compresses, and a grey that changed by 8 of 255 is still another one. */
const STEP = 4;
/** Pixelmatch's measure, of which a grey one step away has 0.0152: a value that was rounded the other way does not count. */
const THRESHOLD = 0.018;
/**
 * Pixels of a half-size picture that may differ. The same browser, font and machine give none; a digit
 * that changed in a line of small print gives 20. Where letters are smoothed in another way hundreds
 * differ, which is why font.json also tells how they are set.
 */
const MOST_PX = 10;

/** Half the size, in steps. */
export function small(screenshot: Buffer): PNG {
  const full = PNG.sync.read(screenshot);
  const out = new PNG({ width: full.width >> 1, height: full.height >> 1 });
  for (let y = 0; y < out.height; y++) {
    for (let x = 0; x < out.width; x++) {
      const at = (y * 2 * full.width + x * 2) * 4;
      const to = (y * out.width + x) * 4;
      for (let c = 0; c < 3; c++) {
        const sum = [at, at + 4, at + full.width * 4, at + full.width * 4 + 4].reduce((s, i) => s + full.data[i + c]!, 0);
        out.data[to + c] = Math.min(255, Math.round(sum / 4 / STEP) * STEP);
      }
      out.data[to + 3] = 255;
    }
  }
  return out;
}

/** What is wrong with a picture, in words; nothing when it is as it was. With TABSIDE_BLESS=1 it becomes the golden. */
export function complaint(name: string, screenshot: Buffer): string | null {
  const now = small(screenshot);
  const file = `${GOLDENS}${name}.png`;
  if (BLESS) return write(file, now), null;
  const seen = `${SEEN}${name}.png`;
  if (!existsSync(file)) return write(seen, now), `There is no golden ${name}.png yet. Look at ${seen}; to keep what all views look like now: TABSIDE_BLESS=1 npm run goldens`;
  const before = PNG.sync.read(readFileSync(file));
  if (before.width !== now.width || before.height !== now.height) return write(seen, now), `${name} is ${now.width} × ${now.height}, its golden ${before.width} × ${before.height}.`;
  const difference = new PNG({ width: now.width, height: now.height });
  const count = pixelmatch(before.data, now.data, difference.data, now.width, now.height, { threshold: THRESHOLD, includeAA: true });
  if (count <= MOST_PX) return null;
  write(seen, now);
  write(seen.replace(/\.png$/, '.difference.png'), difference);
  return `${name} differs from its golden in ${count} pixels of its half size (${MOST_PX} may). Look at ${seen} and beside it; if it is meant: TABSIDE_BLESS=1 npm run goldens`;
}

function write(file: string, picture: PNG): void {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, PNG.sync.write(picture, { colorType: 2, deflateLevel: 9 }));
}
