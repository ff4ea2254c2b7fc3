/** The photo on a canvas with its outlines and their names drawn into it, for paper and for pictures that are saved. */
import type { Preview, Scene } from '../engine/types';
import { imageData } from '../state/previews';
import { middleOf, shapesOf } from '../state/shapes';
import { words } from '../words';
import { pathOf, stageFromPhoto, type View } from './geometry';

type Context = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

/** `view` takes photo pixels to the canvas; `unit` is the width of an outline there. */
export function drawOutlined(context: Context, preview: Preview, scene: Scene, view: View, photoWidth_px: number, unit: number): void {
  const whole = new OffscreenCanvas(preview.width, preview.height);
  whole.getContext('2d')?.putImageData(imageData(preview), 0, 0);
  context.imageSmoothingQuality = 'high';
  const k = (view.k * photoWidth_px) / preview.width;
  context.drawImage(whole, view.x, view.y, preview.width * k, preview.height * k);
  Object.assign(context, { strokeStyle: '#fff', lineWidth: unit, lineJoin: 'round' });
  // A card of several steps has no outline of its own.
  for (const { outline } of shapesOf(scene)) if (outline.length > 2) context.stroke(new Path2D(pathOf(view, outline)));
  Object.assign(context, { font: `bold ${11 * unit}px sans-serif`, textAlign: 'center', textBaseline: 'middle', strokeStyle: '#000', fillStyle: '#fff', lineWidth: 2 * unit });
  for (const { id, outline } of scene.regions) {
    const [name, [x, y]] = [words.names.short(scene, `region:${id}`), stageFromPhoto(view, middleOf(outline))];
    context.strokeText(name, x, y);
    context.fillText(name, x, y);
  }
}
