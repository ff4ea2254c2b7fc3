/**
 * A drawn picture is searched and read once while nobody waits: browsers make a module's often-used code
 * quicker only when it has run for a while, and the first photo would be slow by that.
 */
import { desk } from '../engine/instance';
import { doc } from './desk';
import { EMPTY_SCENE } from './doc';
import { withFound } from './found';
import { HEIGHT_PX } from './sheet';
import { busy } from './status';
import { opening } from './tray/incoming';
import { isTaken, take } from './tray/lanes';

/** Enough to run for a while, and done before a file is chosen. */
const SIZE = { width: 2400, height: 1600 };

type Context = OffscreenCanvasRenderingContext2D;

/** Teeth, tabs and a grey card, as far as the search finds such. */
function draw(context: Context): void {
  const { width: w, height: h } = SIZE;
  const fill = (colour: string, path: () => void) => {
    context.fillStyle = colour;
    context.beginPath();
    path();
    context.fill();
  };
  fill('#6b3a3a', () => context.rect(0, 0, w, h));
  const pale = (i: number, y: number) => fill(`rgb(${212 + 3 * i}, ${202 + 2 * i}, ${175 + i})`, () => context.ellipse((0.15 + 0.14 * i) * w, y * h, 0.055 * w, 0.15 * h, 0, 0, 7));
  for (let i = 0; i < 6; i++) pale(i, 0.35);
  for (let i = 0; i < 4; i++) pale(i, 0.72);
  fill('#767676', () => context.rect(0.72 * w, 0.62 * h, 0.2 * w, 0.28 * h));
}

/** Only of use when the first thing that is asked of the reader is this. */
export async function warm(): Promise<void> {
  if (doc.value.photo || busy.value || opening.value || isTaken('front') || desk.front.quietMs < Infinity) return;
  // It makes way for whoever waits for long.
  const slot = take('front', () => {});
  try {
    const canvas = new OffscreenCanvas(SIZE.width, SIZE.height);
    draw(canvas.getContext('2d')!);
    const photo = await desk.open(await canvas.convertToBlob({ type: 'image/jpeg' }), '', { ...slot, tooLarge: '' });
    try {
      // As soon as somebody asks, what is asked for makes the code quick.
      const idle = () => desk.front.quietMs === Infinity;
      if (idle()) await desk.preview(photo, SIZE.width * SIZE.height, slot);
      const { scene } = idle() ? withFound(EMPTY_SCENE, await desk.find(photo, slot)) : { scene: EMPTY_SCENE };
      if (idle()) await desk.read({ photo, polarised: null, scene, target: undefined, guide: null }, slot);
      const [first] = scene.regions;
      if (first && idle()) await desk.straightened(photo, scene, first.id, HEIGHT_PX, slot);
    } finally {
      desk.close(photo);
    }
  } catch {
    // Then the first photo is slower.
  } finally {
    slot.end();
  }
}
