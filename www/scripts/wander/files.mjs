// What the wanderer opens: good photos, odd ones, broken ones, and files of other kinds.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { PNG } from 'pngjs';

const fixture = (path) => readFileSync(fileURLToPath(new URL(`../../../fixtures/${path}`, import.meta.url)));

/** Noise of one colour: nothing is found in it. */
function noise(width, height, start) {
  const png = new PNG({ width, height });
  let state = start;
  for (let i = 0; i < png.data.length; i++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    png.data[i] = i % 4 === 3 ? 255 : 90 + (state >>> 27);
  }
  return PNG.sync.write(png);
}

const jpeg = (name, buffer) => ({ name, mimeType: 'image/jpeg', buffer });
const text = (name, mimeType, said) => ({ name, mimeType, buffer: Buffer.from(said) });

function make() {
  const [other, demo] = [fixture('scenes/other.jpg'), fixture('demo/demo.jpg')];
  /** The same picture as another file. */
  const again = (name) => jpeg(name, Buffer.concat([other, Buffer.from(name)]));
  return {
    photos: [
      again('upper.jpg'), again('Zähne №2 – “links”.jpg'), again('歯の写真.jpg'), again('مريض.jpg'), again('🦷.jpg'), again(`${'long name '.repeat(20)}.jpg`),
      jpeg('demo as a file.jpg', demo),
      { name: 'small.png', mimeType: 'image/png', buffer: noise(320, 240, 1) },
      { name: 'narrow.png', mimeType: 'image/png', buffer: noise(40, 900, 2) },
      { name: 'one.png', mimeType: 'image/png', buffer: noise(1, 1, 3) },
    ],
    broken: [
      jpeg('empty.jpg', Buffer.alloc(0)), jpeg('cut.jpg', other.subarray(0, 90_000)), jpeg('head.jpg', other.subarray(0, 600)),
      jpeg('not a photo.jpg', Buffer.from('no photo at all')), { name: 'cut.png', mimeType: 'image/png', buffer: noise(200, 200, 4).subarray(0, 5000) },
      text('odd.scene.json', 'application/json', '{"card":null,"regions":[{"id":1}]}'), text('odd.guide.json', 'application/json', '[]'), text('odd.swatches.json', 'application/json', 'null'),
      text('odd.csv', 'text/csv', 'a;b\n1;\u0000'), { name: 'odd.tabside', mimeType: 'application/octet-stream', buffer: Buffer.from('PK\u0003\u0004 not a case') },
    ],
    others: [
      { name: 'version-1.tabside', mimeType: 'application/octet-stream', buffer: fixture('case/version-1.tabside') },
      { name: 'locked.tabside', mimeType: 'application/octet-stream', buffer: fixture('case/locked.tabside') },
      { name: 'demo.swatches.json', mimeType: 'application/json', buffer: fixture('demo/demo.swatches.json') },
    ],
  };
}

let pools = null;

/** `{ pool, n }` names a file in the log. */
export function fileOf({ pool, n }) {
  pools ??= make();
  return pools[pool][n % pools[pool].length];
}

export const POOLS = { photos: 10, broken: 10, others: 3 };

const plain = ({ name, mimeType, buffer }) => ({ name, mimeType, bytes: buffer.toString('base64') });

/** As if dragged in from a folder. */
export async function dropFiles(page, named) {
  await page.evaluate((given) => {
    const drop = new DragEvent('drop', { dataTransfer: spied.carrying(given), bubbles: true, cancelable: true });
    (document.querySelector('dialog[open]') ?? window).dispatchEvent(drop);
  }, named.map(fileOf).map(plain));
}

/**
 * As if chosen in the system's own window. The driver's own way keeps hold of the field for ever, and by its
 * listeners of the view that asked for it: that would be counted as the page's.
 */
export async function chooseFile(field, chosen) {
  const fill = (input, given) => {
    input.files = spied.carrying(given).files;
    for (const kind of ['input', 'change']) input.dispatchEvent(new Event(kind, { bubbles: true, composed: true }));
  };
  if (chosen) await field.evaluate(fill, [plain(fileOf(chosen))]).catch(() => {});
  await field.dispose().catch(() => {});
}
